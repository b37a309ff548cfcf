"""What the desk stores."""

from firstpitch.desk.models.branch import Branch
from firstpitch.desk.models.branch_event import BranchEvent
from firstpitch.desk.models.event import Event
from firstpitch.desk.models.film import Film
from firstpitch.desk.models.film_upload import FilmUpload
from firstpitch.desk.models.handover import Handover
from firstpitch.desk.models.invitation import Invitation
from firstpitch.desk.models.job import Job
from firstpitch.desk.models.media import Media
from firstpitch.desk.models.own_kind import OwnKind
from firstpitch.desk.models.owner_link import OwnerLink
from firstpitch.desk.models.person import Person, Role
from firstpitch.desk.models.question import Question
from firstpitch.desk.models.session import Session
from firstpitch.desk.models.sheet_before import SheetBefore
from firstpitch.desk.models.tally import Tally
from firstpitch.desk.models.van import Van

__all__ = [
    "Branch",
    "BranchEvent",
    "Event",
    "Film",
    "FilmUpload",
    "Handover",
    "Invitation",
    "Job",
    "Media",
    "OwnKind",
    "OwnerLink",
    "Person",
    "Question",
    "Role",
    "Session",
    "SheetBefore",
    "Tally",
    "Van",
]
