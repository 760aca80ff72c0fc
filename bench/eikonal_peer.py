"""Times skimage.graph.MCP_Geometric on the grid that bench/eikonal.cpp wrote.

    python3 bench/eikonal_peer.py SPEEDS SIDE ROUNDS TIMES

SPEEDS: SIDE x SIDE doubles, row after row; the start is the middle cell. Prints the best processor
time in seconds of ROUNDS searches, set-up included, and writes the times found to TIMES. Ends with
status 3 where scikit-image is not installed.
"""
import sys
import time

try:
    import numpy
    from skimage.graph import MCP_Geometric
except ImportError:
    sys.exit(3)


def main(speeds, side, rounds, times):
    side, rounds = int(side), int(rounds)
    speed = numpy.fromfile(speeds, dtype=float).reshape(side, side)
    costs = numpy.full_like(speed, -1)  # negative: no way
    numpy.divide(1, speed, out=costs, where=speed > 0)
    best = float("inf")
    for _ in range(rounds):
        begun = time.process_time()
        found, _ = MCP_Geometric(costs).find_costs([(side // 2, side // 2)])
        best = min(best, time.process_time() - begun)
    found.astype(float).tofile(times)
    print(repr(best))


main(*sys.argv[1:])
