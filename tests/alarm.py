"""An alarm for what may hang: a pipe that is waited for, a file without an end, work that does not end."""

import signal
from contextlib import contextmanager


@contextmanager
def within(seconds):
    """Whatever takes longer is interrupted, and fails."""

    def ring(*_):
        raise AssertionError(f"it hangs: more than {seconds} s")

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)
