"""The sentences of the code that tests look for, each stated once, by the room that says it."""

from .book import *
from .boxes import *
from .calibration import *
from .catch import *
from .drill import *
from .job import *
from .library import *
from .mix import *
from .office import *
from .order import *
from .pages import *
from .parsing import *
from .quantities import *
from .record import *
from .report import *
from .rows import *
from .seed import *
from .seeding import *
from .stand import *
from .statistics import *
from .tables import *
from .whole_job import *
