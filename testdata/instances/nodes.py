"""What the nodes of a certificate may hold, for verify.py: written from the text of package proof alone."""
import sys
sys.setrecursionlimit(9999)  # trees may be a thousand branches deep
KINDS = {"counts"}, {"prices", "multipliers", "free_starter", "free_ender"}, {"split", "low", "high"}
SUMS = "started", "starters", "enders", "deficit"


def split_of(n, p, most, depth):
    """(figure, value, run, below) of a branch, None of a leaf, of a problem p whose layouts take at most so many planks."""
    if not any({key for key in n if n[key]} <= kind for kind in KINDS):
        raise ValueError("a node is a leaf of prices, one of counts, or a branch")
    split = n.get("split")
    if not split:
        return None
    of, v, i, below = split["of"], split["value"], split.get("run", 0), split.get("below", 0)
    if of in SUMS:
        fine = i == 0 and abs(v) <= 2 * most + 1 and (below == 0 or of != "started")
    else:
        fine = of in ("starter", "place") and 0 <= i < len(p.runs) and 0 <= v <= p.L and below == 0
    if not fine or depth >= 1000:
        raise ValueError("a split of no figure, beyond any layout, or too deep: %s" % split)
    return of, v, i, below


def fit(multipliers, sums, most):
    """Whether the multipliers of a leaf are one for each sum split above it, and not so large that costs overflow."""
    plank = 10**9
    return (len(multipliers) == len(sums) and all(0 <= m <= 1000 * plank for m in multipliers)
            and most * (sum(multipliers) + plank) <= 1 << 60)
