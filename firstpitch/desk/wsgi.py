"""The desk for a WSGI server."""

import os
from importlib import import_module
from threading import Thread

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "firstpitch.desk.settings")
application = get_wsgi_application()

# The solver takes a second to load: better now than when somebody waits beside the van.
Thread(target=import_module, args=("ortools.sat.python.cp_model",), daemon=True).start()
