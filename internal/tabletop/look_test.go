package tabletop

import (
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"math"
)

// TestSeenBack: what the camera sees at a place is seen there.
func TestSeenBack(t *testing.T) {
	for seed := range uint64(20) {
		s, _ := Random(seed, 800)
		s.aim()
		for _, p := range s.Piece {
			at, ok := s.See(p)
			if !ok {
				t.Fatalf("scene %d: the piece is behind the camera", seed)
			}
			x, y := s.back(at.X, at.Y)
			if math.Hypot(x-p.X, y-p.Y) > 0.01 {
				t.Fatalf("scene %d: %v is seen at %v, where (%.2f, %.2f) is seen", seed, p, at, x, y)
			}
		}
	}
}

// TestDrawScenes writes some scenes to look at, where DRAW_SCENES names a folder.
func TestDrawScenes(t *testing.T) {
	dir := os.Getenv("DRAW_SCENES")
	if dir == "" {
		t.Skip("DRAW_SCENES names no folder")
	}
	for seed := range uint64(4) {
		s, _ := Random(seed, 1200)
		if err := os.WriteFile(filepath.Join(dir, "scene"+strconv.Itoa(int(seed))+".jpg"), s.Photograph(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
