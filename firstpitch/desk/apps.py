"""The desk as a Django app."""

from django.apps import AppConfig


class DeskConfig(AppConfig):
    """All of the desk is one app with one line of migrations."""

    name = "firstpitch.desk"
    label = "desk"
    verbose_name = "Desk"
