package main

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"

	guidepages "hembook/content/pages"
	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/press"
	"hembook/internal/record"
	"hembook/internal/say"
)

// guideRoom is the workroom file of the guide, which is pressed as a notebook.
func guideRoom() string { return say.Of("hembook.guide-room") }

// aboutDemo is the one page that speaks of the demo workroom alone.
const aboutDemo = "about.md"

// writeGuide presses the guide into a folder, to be opened by a double-click.
func writeGuide(ctx context.Context, to string) error {
	dir, err := os.MkdirTemp("", "hembook-guide-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if err := writeNew(filepath.Join(dir, "content", "workroom.yaml"), []byte(guideRoom())); err != nil {
		return err
	}
	names, err := fs.Glob(guidepages.Files, "*.md")
	if err != nil {
		return err
	}
	for _, name := range names {
		if name == aboutDemo {
			continue
		}
		text, err := guidepages.Files.ReadFile(name)
		if err != nil {
			return err
		}
		if err := writeNew(filepath.Join(dir, "content", "pages", name), text); err != nil {
			return err
		}
	}
	room, _, err := record.Open(dir)
	if err != nil {
		return err
	}
	defer room.Close()
	tailor, _ := derive.NewTailor(room)
	theme, err := roomTheme(room)
	if err != nil {
		return err
	}
	cutter := cutting.NewCutter(ctx, room, tailor, cutting.Options{Mode: cutting.None})
	_, _, err = press.Press(ctx, room, cutter, theme, press.Options{To: to})
	return err
}
