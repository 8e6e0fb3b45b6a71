"""Timing of the Python peers: warm first, then many repetitions, minimum and median reported."""

import platform
import statistics
import time

import numpy as np


def processor_name():
    """Name of this machine's processor, as the operating system gives it."""
    try:
        with open("/proc/cpuinfo", encoding="ascii") as lines:
            for line in lines:
                if line.startswith("model name"):
                    return line.split(":", 1)[1].strip()
    except OSError:
        pass
    return platform.processor() or platform.machine()


def warm_allocator():
    """Teach the C library's allocator to keep memory between calls.

    glibc hands large or topmost free blocks back to the operating system until it has once seen a larger block freed;
    temporaries of 64 KiB and more then fault in fresh pages on every call, which makes NumPy several times slower. One
    block of 24 MiB, made and freed, raises both thresholds for the rest of the process.
    """
    block = np.ones(24 * 2**17)
    del block


def time_calls(function, arguments, seconds=3.0, warm_calls=200):
    """Seconds per call of `function` over a cycle of `arguments`.

    The first calls are slow (fresh pages, cold caches): `warm_calls` calls are made and dropped. A repetition is one
    pass over all arguments. Returns a dictionary with minimum and median over the repetitions, and their number.
    """
    for i in range(warm_calls):
        function(*arguments[i % len(arguments)])
    passes = []
    end = time.perf_counter() + seconds
    while time.perf_counter() < end or len(passes) < 5:
        start = time.perf_counter()
        for argument in arguments:
            function(*argument)
        passes.append((time.perf_counter() - start) / len(arguments))
    return {"min_s": min(passes), "median_s": statistics.median(passes), "repetitions": len(passes)}
