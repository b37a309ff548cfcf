"""Signing in and out, coming to the desk, one's own page, the people of a branch."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.people import forgot, joining, own, people, second_factor, sign_in

urlpatterns = [
    path("sign-in/", sign_in.sign_in, name="sign-in"),
    path("sign-in/code/", sign_in.sign_in_code, name="sign-in-code"),
    path("sign-out/", sign_in.sign_out, name="sign-out"),
    path("forgot/", forgot.forgot, name="forgot"),
    path("forgot/<str:who>/<str:token>/", forgot.reset, name="reset"),
    path("join/<str:secret>/", joining.join, name="join"),
    path("first/", joining.first, name="first"),
    path("me/", own.me, name="me"),
    path("me/name/", own.name, name="me-name"),
    path("me/email/", own.email, name="me-email"),
    path("me/password/", own.password, name="me-password"),
    path("me/sessions/end/", own.end_others, name="end-others"),
    path("me/sessions/<slug:mark>/end/", own.end_session, name="end-session"),
    path("me/second-factor/start/", second_factor.start, name="second-factor-start"),
    path("me/second-factor/", second_factor.set_up, name="second-factor"),
    path("me/second-factor/codes/", second_factor.new_codes, name="second-factor-codes"),
    path("me/second-factor/off/", second_factor.turn_off, name="second-factor-off"),
    path("people/", people.list_people, name="people"),
    path("people/invite/", people.invite, name="invite"),
    path("people/invitations/<int:invitation>/withdraw/", people.withdraw, name="withdraw-invitation"),
    path("people/<int:person>/role/", people.role, name="person-role"),
    path("people/<int:person>/shut/", people.shut, name="person-shut"),
    path("people/<int:person>/reopen/", people.reopen, name="person-reopen"),
    path("people/<int:person>/second-factor-off/", people.factor_off, name="person-factor-off"),
]
