"""The installed command in a process of its own, whatever runs the tests."""

START = "from tautlay.cases.command.main import main\nmain()\n"
# What runs the tests may ignore signals, as shells do for jobs in the background and nohup does; the command must not.
HEAR = (
    "import signal\nfor name in ('SIGINT', 'SIGTERM', 'SIGHUP'): signal.signal(getattr(signal, name), signal.SIG_DFL)\n"
)
BEGIN = HEAR + START
