"""Times skimage.graph.route_through_array on the grid that bench/routes.cpp wrote.

    python3 bench/routes_peer.py COSTS SIDE ROUNDS

COSTS: SIDE x SIDE doubles, money a metre, row after row; from the middle of the west side to that
of the east side. Prints the best processor time in seconds of ROUNDS searches and the cost of the
way in cells. Ends with status 3 where scikit-image is not installed.
"""
import sys
import time

try:
    import numpy
    from skimage.graph import route_through_array
except ImportError:
    sys.exit(3)


def main(costs, side, rounds):
    side, rounds = int(side), int(rounds)
    grid = numpy.fromfile(costs, dtype=float).reshape(side, side)
    best, cost = float("inf"), 0.0
    for _ in range(rounds):
        begun = time.process_time()
        _, cost = route_through_array(
            grid, (side // 2, 1), (side // 2, side - 2), fully_connected=True, geometric=True)
        best = min(best, time.process_time() - begun)
    print(repr(best), repr(float(cost)))


main(*sys.argv[1:])
