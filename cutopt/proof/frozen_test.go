package proof_test

import (
	"bufio"
	"encoding/json"
	"errors"
	"os"
	"testing"

	"plank.example/cutopt/proof"
)

// TestFrozenFamilies verifies the families that the reference verifier in Python verifies too: those of examples, and
// tiny ones that need branches; a hundred planks more are refused.
func TestFrozenFamilies(t *testing.T) {
	file, err := os.Open("../../testdata/instances/families.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines := bufio.NewScanner(file)
	lines.Buffer(nil, 1<<20)
	n, branches := 0, 0
	for ; lines.Scan(); n++ {
		var entry struct {
			ID          string
			Family      *proof.Family
			Certificate *proof.FamilyCertificate
		}
		if err := json.Unmarshal(lines.Bytes(), &entry); err != nil {
			t.Fatalf("line %d: %v", n+1, err)
		}
		if entry.Certificate.Tree.In != nil {
			branches++
		}
		if err := entry.Certificate.Verify(entry.Family); err != nil {
			t.Errorf("%s: %v", entry.ID, err)
		}
		entry.Certificate.Planks += 100 // the claim of an example is what fills its boxes, not the most that holds
		if err := entry.Certificate.Verify(entry.Family); !errors.Is(err, proof.ErrUnproven) {
			t.Errorf("%s: a hundred planks more: %v", entry.ID, err)
		}
	}
	if n == 0 || branches == 0 {
		t.Errorf("%d families, %d of them with branches", n, branches)
	}
}
