"""Starts each run with the shortest starter that the rules allow beside the runs laid before it."""
import json, sys

def joints(run, s, plank):
    return range(run["from"] + s, run["from"] + run["length"], plank) if s else ()

def fits(p, layout, i, s):
    run, plank = p["runs"][i], p["plank"]
    if s == 0:
        return run["length"] <= plank  # in one piece
    ender = (run["length"] - s - 1) % plank + 1
    if not p["min_piece"] <= s < run["length"] or ender < max(p["min_piece"], p.get("min_ender", 0)):
        return False
    near = [x for a, b in p["touch"] or [] if b == i for x in joints(p["runs"][a], layout[a], plank)]
    return all(abs(x - y) >= p["stagger"] for x in joints(run, s, plank) for y in near + run.get("beside", []))

for line in sys.stdin:
    task, layout = json.loads(line), []
    p = task["instance"]
    for i in range(len(p["runs"])):
        layout.append(next((s for s in range(0, p["plank"] + 1, p["grid"]) if fits(p, layout, i, s)), None))
    print(json.dumps({"floor": task["floor"], "layout": None if None in layout else layout}), flush=True)
