#!/usr/bin/env python3
"""Verifies claims, as claim.schema.json has them, before they are sent: python3 claims.py CLAIMS.jsonl
Each layout is recounted and each certificate verified, by verify.py, against the instance that the claim names in
instances.jsonl beside this file. It prints a line for each claim and ends with 1 if any does not hold or there is none."""
import json, os, sys, verify
SET = os.path.join(os.path.dirname(os.path.abspath(__file__)), "instances.jsonl")

def judge(claim, entry):
    verify.need(entry and claim.get("by"), "a claim names an instance of the set and says by whom it is")
    p, said = verify.Problem(entry["instance"]), []
    if claim.get("layout") is not None:
        said.append("%d planks, %d known" % (verify.count(p, claim["layout"], claim.get("packing")), entry["planks"]))
    if claim.get("certificate") is not None:
        verify.Certificate(p, claim["certificate"])
        said.append("bound %d, %d known" % (claim["certificate"]["planks"], entry["bound"]))
    verify.need(said, "a claim has a layout, a certificate, or both")
    return ", ".join(said)

if __name__ == "__main__":
    claims = [json.loads(line, parse_float=str) for name in sys.argv[1:] for line in open(name) if line.strip()]
    wanted = {c.get("id") for c in claims}
    entries = (json.loads(line, parse_float=str) for line in open(SET))
    known = {e["id"]: e for e in entries if e.get("id") in wanted}
    failed = not claims
    for c in claims:
        try:
            print("holds: %s: %s" % (c["id"], judge(c, known.get(c["id"]))))
        except (ValueError, KeyError, TypeError, IndexError, RecursionError) as e:
            failed = True
            print("FAILED: %s: %r" % (c.get("id"), e))
    sys.exit(1 if failed else 0)
