"""Solves the routing instances in networks/ exactly with HiGHS and writes the proven optima.

    python -m venv venv && venv/bin/pip install -r requirements.txt
    venv/bin/python solve_networks.py [SECONDS] [NAME ...]

Writes networks/optima.txt: the solver's version, then one line for each instance with its optimum.
With names only those are solved, and the other lines stay. What is not proven within so many seconds
(600) is told and left out. Solved by one thread, so that the machine stays usable.
The form of an instance is described in core/src/route/network/instance.rs. The model: every cable is
a unit flow of whole numbers from its source to the sink; a cable that uses any edge of a crossing is
held by it; each cable held by a crossing needs a bore, and all of them together need the sum of their
areas over the capacity, in whole bores. Where bores come in kinds, one of all loads that the cables can
make up is chosen, with what its cheapest deal costs. The search sets out from our router's answer, which spares
it time but proves nothing; nothing else is taken from there.
"""

import itertools
import json
import math
import pathlib
import sys

import highspy
import numpy as np

FOLDER = pathlib.Path(__file__).parent / "networks"


class Rows:
    """A sparse matrix by rows, with bounds."""

    def __init__(self):
        self.lower, self.upper, self.starts, self.index, self.value = [], [], [], [], []

    def add(self, lower, upper, terms):
        self.lower.append(lower)
        self.upper.append(upper)
        self.starts.append(len(self.index))
        for index, value in terms:
            self.index.append(index)
            self.value.append(value)


class Columns:
    """Whole-numbered variables with a cost and an upper bound."""

    def __init__(self):
        self.cost, self.upper = [], []

    def add(self, cost, upper):
        self.cost.append(cost)
        self.upper.append(upper)
        return len(self.cost) - 1


def hundredths(area):
    return round(area * 100)


def kinds(crossing):
    """The kinds of bores of a crossing whose cables are dealt, the cheapest first; None of another."""
    wider = crossing.get("wider")
    if wider is None:
        return None
    return [(bore["price"], hundredths(bore["capacity_mm2"])) for bore in [crossing] + wider]


def dealt(bores, load):
    """What the cheapest deal of a load costs, given as (area, count), thickest first; None of one that no
    bores hold. Each cable goes to the next bore in turn, each bore is of the cheapest kind that holds it."""
    cables = [area for area, count in load for _ in range(count)]
    best = None
    for number in range(1, min(len(cables), 24) + 1):
        parts = [sum(cables[first::number]) for first in range(number)]
        prices = [min((price for price, most in bores if part <= most), default=math.inf) for part in parts]
        if sum(prices) < math.inf and (best is None or sum(prices) < best):
            best = sum(prices)
    return best


def loads(cables):
    """All that cables can make up: for each area, thickest first, how many."""
    areas = sorted({hundredths(cable["area_mm2"]) for cable in cables}, reverse=True)
    counts = [sum(hundredths(cable["area_mm2"]) == area for cable in cables) for area in areas]
    ranges = [range(count + 1) for count in counts]
    return areas, [load for load in itertools.product(*ranges) if sum(load)]


def model(instance):
    edges, crossings, cables = instance["edges"], instance["crossings"], instance["cables"]
    columns, rows = Columns(), Rows()
    total = sum(hundredths(cable["area_mm2"]) for cable in cables)
    capacity = [hundredths(crossing["capacity_mm2"]) for crossing in crossings]
    bores = [
        columns.add(crossing["price"], -(-total // capacity[j])) if kinds(crossing) is None else None
        for j, crossing in enumerate(crossings)
    ]
    held, all_ways = {}, []
    for k, cable in enumerate(cables):
        ways = [(columns.add(e["cost"], 1), columns.add(e["cost"], 1)) for e in edges]
        conserve(rows, instance, cable, ways)
        if cable["max_length_mm"] is not None:
            lengths = [(x, e["length_mm"]) for e, pair in zip(edges, ways) for x in pair]
            rows.add(-highspy.kHighsInf, cable["max_length_mm"], lengths)
        hold(rows, columns, held, edges, k, ways)
        all_ways.append(ways)
    chosen = choose(rows, columns, held, crossings, cables)
    for (k, j), column in held.items():
        used = [(bores[j], -1)] if bores[j] is not None else [(x, -1) for x in chosen[j].values()]
        rows.add(-highspy.kHighsInf, 0, [(column, 1)] + used)
    for j in range(len(crossings)):
        if bores[j] is not None and total > capacity[j]:
            areas = [(held[k, j], hundredths(c["area_mm2"])) for k, c in enumerate(cables) if (k, j) in held]
            rows.add(-highspy.kHighsInf, 0, areas + [(bores[j], -capacity[j])])
    return columns, rows, start(instance, columns, (bores, chosen), held, all_ways)


def choose(rows, columns, held, crossings, cables):
    """At each crossing whose cables are dealt at most one load, which has as many of each area as it holds."""
    areas, all_loads = loads(cables)
    chosen = [{} for _ in crossings]
    for j, crossing in enumerate(crossings):
        bores = kinds(crossing)
        if bores is None or not any((k, j) in held for k in range(len(cables))):
            continue
        priced = ((load, dealt(bores, list(zip(areas, load)))) for load in all_loads)
        chosen[j] = {load: columns.add(price, 1) for load, price in priced if price is not None}
        rows.add(-highspy.kHighsInf, 1, [(column, 1) for column in chosen[j].values()])
        for place, area in enumerate(areas):
            through = [(held[k, j], 1) for k, c in enumerate(cables) if (k, j) in held and hundredths(c["area_mm2"]) == area]
            counted = [(column, -load[place]) for load, column in chosen[j].items() if load[place]]
            rows.add(0, 0, through + counted)
    return chosen


def start(instance, columns, bores_and_chosen, held, all_ways):
    """The values of all columns in our own answer."""
    bores, chosen = bores_and_chosen
    values = np.zeros(len(columns.cost))
    total = [0] * len(bores)
    areas, _ = loads(instance["cables"])
    through = [[0] * len(areas) for _ in bores]
    for k, (cable, path) in enumerate(zip(instance["cables"], instance["answer"]["paths"])):
        node, met = cable["source"], set()
        for i in path:
            edge = instance["edges"][i]
            there = edge["u"] == node
            node = edge["v"] if there else edge["u"]
            values[all_ways[k][i][0 if there else 1]] = 1
            met.add(edge["crossing"])
        for j in met - {None}:
            values[held[k, j]] = 1
            total[j] += hundredths(cable["area_mm2"])
            through[j][areas.index(hundredths(cable["area_mm2"]))] += 1
    for j, load in enumerate(total):
        if bores[j] is not None:
            values[bores[j]] = -(-load // hundredths(instance["crossings"][j]["capacity_mm2"]))
        elif load > 0:
            values[chosen[j][tuple(through[j])]] = 1
    return values


def conserve(rows, instance, cable, ways):
    """What flows out of a node less what flows in: one at the source, less one at the sink."""
    terms = [[] for _ in range(instance["nodes"])]
    for edge, (there, back) in zip(instance["edges"], ways):
        if edge["u"] != edge["v"]:
            terms[edge["u"]] += [(there, 1), (back, -1)]
            terms[edge["v"]] += [(there, -1), (back, 1)]
    for node, flow in enumerate(terms):
        net = (node == cable["source"]) - (node == instance["sink"])
        rows.add(net, net, flow)


def hold(rows, columns, held, edges, k, ways):
    """A crossing holds a cable that uses any of its edges."""
    for edge, (there, back) in zip(edges, ways):
        j = edge["crossing"]
        if j is not None:
            if (k, j) not in held:
                held[k, j] = columns.add(0, 1)
            rows.add(-highspy.kHighsInf, 0, [(there, 1), (back, 1), (held[k, j], -1)])


def solve(instance, seconds):
    columns, rows, values = model(instance)
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(columns.cost), len(rows.lower)
    lp.col_cost_ = np.array(columns.cost, dtype=float)
    lp.col_lower_ = np.zeros(lp.num_col_)
    lp.col_upper_ = np.array(columns.upper, dtype=float)
    lp.row_lower_, lp.row_upper_ = np.array(rows.lower, dtype=float), np.array(rows.upper, dtype=float)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.array(rows.starts + [len(rows.index)])
    lp.a_matrix_.index_ = np.array(rows.index)
    lp.a_matrix_.value_ = np.array(rows.value, dtype=float)
    lp.integrality_ = [highspy.HighsVarType.kInteger] * lp.num_col_
    highs = highspy.Highs()
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("mip_rel_gap", 0.0)
    # All costs are whole, so less than one apart is proven.
    highs.setOptionValue("mip_abs_gap", 0.9)
    highs.setOptionValue("threads", 1)
    highs.setOptionValue("time_limit", float(seconds))
    highs.passModel(lp)
    solution = highspy.HighsSolution()
    solution.col_value = list(values)
    highs.setSolution(solution)
    highs.run()
    values = np.rint(highs.getSolution().col_value)
    return int(np.dot(values, columns.cost)), highs.getInfo().mip_dual_bound, highs.getRunTime()


def main():
    arguments = sys.argv[1:]
    seconds = arguments.pop(0) if arguments and arguments[0].isdigit() else 600
    optima = known() if arguments else {}
    names = arguments or sorted(path.stem for path in FOLDER.glob("*.json"))
    for name in names:
        cost, bound, took = solve(json.loads((FOLDER / f"{name}.json").read_text()), seconds)
        if cost - bound >= 1:
            print(f"{name} not proven in {took:.1f} s: {cost}, bound {bound:.0f}", flush=True)
            continue
        print(f"{name} {cost} in {took:.1f} s", flush=True)
        optima[name] = cost
        lines = [f"HiGHS {highspy.Highs().version()}, every optimum proven"]
        lines += [f"{name} {optima[name]}" for name in sorted(optima)]
        (FOLDER / "optima.txt").write_text("\n".join(lines) + "\n")


def known():
    lines = (FOLDER / "optima.txt").read_text().splitlines()[1:]
    return {name: int(optimum) for name, optimum in map(str.split, lines)}


if __name__ == "__main__":
    main()
