#!/usr/bin/env python3
"""Traces a graph that `trace --edges` wrote, as a user would script it with networkx.

Prints the answers and the seconds; reading the file is not counted, building the graph is.
"""
import sys
import time

import networkx


def read(path):
    """The number of points, the edges and the promised pairs of points."""
    points, edges, promises = 0, [], []
    with open(path, encoding="ascii") as lines:
        for line in lines:
            word, *numbers = line.split()
            if word == "points":
                points = int(numbers[0])
            elif word == "edge":
                edges.append((int(numbers[0]), int(numbers[1])))
            else:
                promises.append((int(numbers[0]), int(numbers[1])))
    return points, edges, promises


def trace(points, edges, promises):
    """The number of connected pieces, and the way of every promise that arrives."""
    graph = networkx.Graph()
    graph.add_nodes_from(range(points))
    graph.add_edges_from(edges)
    piece_of = {}
    pieces = 0
    for piece in networkx.connected_components(graph):
        for point in piece:
            piece_of[point] = pieces
        pieces += 1
    ways = [networkx.shortest_path(graph, source, target)
            for source, target in promises if piece_of[source] == piece_of[target]]
    return pieces, ways


def main():
    """Reads, traces against the clock, prints one line."""
    points, edges, promises = read(sys.argv[1])
    start = time.perf_counter()
    pieces, ways = trace(points, edges, promises)
    seconds = time.perf_counter() - start
    print(f"pieces {pieces} arrived {len(ways)} seconds {seconds:.6f}")


if __name__ == "__main__":
    main()
