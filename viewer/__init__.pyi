from .album import draw_album as draw_album
from .choose_page import write_choose_page as write_choose_page
from .fold import draw_fold as draw_fold
from .graphics import DisplayError as DisplayError
from .judge_page import write_judge_page as write_judge_page
from .measures import draw_measures as draw_measures
from .pattern_page import write_pattern_page as write_pattern_page
from .picture import draw_shape as draw_shape
from .report import write_comparison as write_comparison
from .report import write_report as write_report
from .show_result import show as show
from .sweep_page import write_sweep_page as write_sweep_page
from .trial_page import write_trial_page as write_trial_page

__version__: str
