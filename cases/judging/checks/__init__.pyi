from .case import Case as Case
from .check import Check as Check
from .check import Unchecked as Unchecked
from .check_record import CheckRecord as CheckRecord
from .check_record import record_check as record_check
from .findings import Findings as Findings
from .findings import list_checks as list_checks
