"""The app as a worker of the server runs it, in a process of its own."""

import gc
import multiprocessing
import os
import signal
import threading

from . import calculating, observing
from .api.bodies import MOST_RAW_BYTES, MOST_RAW_BYTES_OF_STRANGERS
from .app import create_app
from .gateway import Gateway, Limits
from .settings import from_environment

# requests that are worked on at once; one that is still coming holds none
THREADS = 64
# a push of 1,500 changes makes some thirty thousand objects, none of them in a circle
OBJECTS_BETWEEN_COLLECTIONS = 100_000


def create_worker_app():
    """Make the app in the worker process, which ends when its parent is gone, even killed."""

    def end_with_parent():
        multiprocessing.parent_process().join()
        os.kill(os.getpid(), signal.SIGTERM)

    threading.Thread(target=end_with_parent, daemon=True).start()
    # what is there from the start stays: looking it through for circles took a fifth of a start and of a push
    gc.disable()
    told = from_environment()
    app = create_app(told=told)
    observer = observing.Observer(told.log)
    gc.freeze()
    gc.set_threshold(OBJECTS_BETWEEN_COLLECTIONS)
    gc.enable()
    limits = Limits(MOST_RAW_BYTES, MOST_RAW_BYTES_OF_STRANGERS, "/api/v1/devices/me")
    return Gateway(app, THREADS, limits, observer.note, calculating.end_all)
