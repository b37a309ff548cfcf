"""Signing in and out."""

from __future__ import annotations

from django.contrib.auth.views import LoginView, LogoutView
from django.urls import path

from firstpitch.desk.access import anyone

urlpatterns = [
    path("sign-in/", anyone(LoginView.as_view(template_name="desk/sign_in.html")), name="sign-in"),
    path("sign-out/", anyone(LogoutView.as_view()), name="sign-out"),
]
