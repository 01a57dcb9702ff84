#!/usr/bin/python3
"""Gaussian process regression with scikit-learn, beside this project's own (Debian python3-sklearn).

check           reads lines "x y value" and, after a line "at", lines "x y"; writes mean and sd at those, the kernel fixed:
                amplitude 2.25, Matern nu 1.5 with length 120, white noise 0.36 on the data alone
time SIZE       made-up heights at SIZE places about 50 m apart: seconds of one fit (length, amplitude and noise by maximum
                likelihood, one start) with mean and sd at 200 places, by the clock and of all processors, and the peak memory in MB. It knows heights alone:
                scikit-learn's Gaussian process takes no slopes
"""
import resource
import sys
import time

import numpy
from sklearn.gaussian_process import GaussianProcessRegressor
from sklearn.gaussian_process.kernels import ConstantKernel, Matern, WhiteKernel


def check():
    known, asked = [], []
    lines = known
    for line in sys.stdin:
        if line.strip() == "at":
            lines = asked
        else:
            lines.append([float(cell) for cell in line.split()])
    known, asked = numpy.array(known), numpy.array(asked)
    kernel = ConstantKernel(2.25) * Matern(length_scale=120.0, nu=1.5)
    model = GaussianProcessRegressor(kernel, alpha=0.36, optimizer=None).fit(known[:, :2], known[:, 2])
    for mean, sd in zip(*model.predict(asked, return_std=True)):
        print("%.17g %.17g" % (mean, sd))


def timed(size):
    random = numpy.random.default_rng(size)
    columns = int(numpy.ceil(numpy.sqrt(1.5 * size)))
    number = numpy.arange(size)
    places = 50.0 * numpy.column_stack([number % columns, number // columns]) + 11.0 * random.standard_normal((size, 2))
    heights = 6.0 * numpy.sin(places[:, 0] / 90.0) * numpy.cos(places[:, 1] / 120.0) + 0.6 * random.standard_normal(size)
    asked = places.max(axis=0) * numpy.column_stack(
        [numpy.repeat(numpy.arange(20) / 19.0, 10), numpy.tile(numpy.arange(10) / 9.0, 20)])
    kernel = ConstantKernel(10.0, (1e-2, 1e4)) * Matern(120.0, (10.0, 1e4), nu=1.5) + WhiteKernel(0.3, (1e-3, 1e2))
    start, used = time.perf_counter(), time.process_time()
    GaussianProcessRegressor(kernel).fit(places, heights).predict(asked, return_std=True)
    seconds, used = time.perf_counter() - start, time.process_time() - used
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    print("%d places: %.2f s, %.2f of processors, peak %.0f MB" % (size, seconds, used, peak))


if sys.argv[1] == "check":
    check()
else:
    timed(int(sys.argv[2]))
