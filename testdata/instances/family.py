#!/usr/bin/env python3
"""Reference verifier of certificates over families of placements, written from the text of package proof alone.
Usage: python3 family.py [FILE.jsonl ...]        a line of a file is {"id": ..., "family": ..., "certificate": ...}
It prints a line for each entry that fails and a summary, and ends with 1 if any did or there is none."""
import json, sys
from verify import Certificate, Problem, NONE, D, need

class Priced(Certificate):  # a placement by itself: only what its cheapest layout costs under some prices is asked for
    def node(self, n, on, depth=0):
        pass

def forest(p):  # the pairs that are left out
    root, out = list(range(len(p.runs))), []
    def find(i):
        while root[i] != i:
            i = root[i]
        return i
    for a, b in p.touch:
        if find(a) == find(b):
            out.append((a, b))
        root[find(a)] = find(b)
    return out

class Family:
    def __init__(self, family, certificate):
        self.data, self.claim = family, certificate["planks"]
        self.floors = [[Problem({**family, **p}) for p in floor] for floor in family["floors"]]
        need(all(self.floors), "a floor has no placement")
        if self.claim <= 0:
            return
        most = sum(max(sum(w // p.L + 2 for w in p.length) for p in floor) for floor in self.floors)
        need(self.claim <= most and sum(map(len, self.floors)) <= 20000, "too many planks or placements")
        self.node(certificate["tree"], [list(range(len(floor))) for floor in self.floors], 0)
    def node(self, n, left, depth):
        f, of = n.get("floor", 0), n.get("of") or []
        if "in" not in n and "out" not in n:
            need(not f and not of, "a leaf names a floor or placements")
            return self.leaf(n, left)
        need(0 <= f < len(left) and depth < 1000, "a branch on no floor, or too deep")
        need(of == sorted(set(of)) and all(0 <= k < len(self.floors[f]) for k in of), "a branch on placements there are not")
        need("prices" not in n and "certificate" not in n, "a branch has two sides and nothing else")
        self.node(n["in"], left[:f] + [[k for k in left[f] if k in of]] + left[f + 1:], depth + 1)
        self.node(n["out"], left[:f] + [[k for k in left[f] if k not in of]] + left[f + 1:], depth + 1)
    def leaf(self, n, left):
        if not all(left):
            return
        if "certificate" in n:
            need(all(len(k) == 1 for k in left) and not n.get("prices"), "a certificate is of one placement of each floor")
            runs, touch = [], []
            for f, (k,) in enumerate(left):
                p = self.data["floors"][f][k]
                touch += [[a + len(runs), b + len(runs)] for a, b in p["touch"] or []]
                runs += p["runs"]
            need(n["certificate"]["planks"] >= self.claim, "a leaf proves fewer planks than the claim")
            Certificate(Problem({**self.data, "runs": runs, "touch": touch}), n["certificate"])
            return
        cost = 0
        for f, ks in enumerate(left):
            problems = [self.floors[f][k] for k in ks]
            least = min(Priced(p, {"planks": 1, "dropped": forest(p), "tree": {}}).cost(n, []) for p in problems)
            if least >= NONE:
                return
            cost += least
        need(cost > (self.claim - 1) * D, "placements may cost as little as %.6f planks" % (cost / D))

if __name__ == "__main__":
    done, failed = 0, 0
    for name in sys.argv[1:] or ["families.jsonl"]:
        for line in open(name):
            entry = json.loads(line, parse_float=str)
            try:
                Family(entry["family"], entry["certificate"])
                done += 1
            except (ValueError, KeyError, TypeError, IndexError, RecursionError) as e:
                failed += 1
                print("FAILED %s: %r" % (entry.get("id"), e))
    print("%d certificates of families verified; %d failed" % (done, failed))
    sys.exit(1 if failed or not done else 0)
