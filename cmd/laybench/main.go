// Laybench lays published strip-packing instances and prints how dense the
// result is, beside the best known figure.
//
// It is the only program that may bound the search by time (--seconds);
// with --work the same input gives the same lay on any machine.
package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sort"
	"time"

	"hembook/internal/lay"
)

const usage = `usage: laybench [flags] INSTANCE.json
       laybench [flags] --all DIR

  --work N      places to try (default: the engine's own)
  --seconds S   search for S seconds instead; not reproducible
  --seed N      another seed, another lay (default 1)
  --curved N    round every corner with an arc of N points first
  --cores N     searchers that may run side by side (default: all)
  --json FILE   write the lay
  --laid FILE   write the instance as it was laid
  --svg FILE    draw the lay
  --all DIR     lay every instance of a folder, print a table

example: laybench --seconds 10 --json lay.json albano.json
`

type flags struct {
	opt     lay.Options
	seconds float64
	curved  int
	laid    string
	json    string
	svg     string
	all     string
}

func main() {
	var f flags
	fs := flag.NewFlagSet("laybench", flag.ContinueOnError)
	fs.Usage = func() { fmt.Fprint(os.Stderr, usage) }
	fs.IntVar(&f.opt.Tries, "work", 0, "")
	fs.Float64Var(&f.seconds, "seconds", 0, "")
	fs.Uint64Var(&f.opt.Seed, "seed", 1, "")
	fs.IntVar(&f.opt.Cores, "cores", 0, "")
	fs.IntVar(&f.curved, "curved", 0, "")
	fs.StringVar(&f.json, "json", "", "")
	fs.StringVar(&f.laid, "laid", "", "")
	fs.StringVar(&f.svg, "svg", "", "")
	fs.StringVar(&f.all, "all", "", "")
	if err := fs.Parse(os.Args[1:]); err != nil {
		os.Exit(2)
	}
	if err := run(&f, fs.Args(), os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "laybench:", err)
		os.Exit(1)
	}
}

func run(f *flags, args []string, out io.Writer) error {
	if f.all != "" {
		files, err := filepath.Glob(filepath.Join(f.all, "*.json"))
		if err != nil {
			return err
		}
		sort.Strings(files)
		args = append(args, files...)
	}
	if len(args) == 0 {
		return fmt.Errorf("no instance named; laybench --help shows how")
	}
	if f.curved == 1 || f.curved < 0 {
		return fmt.Errorf("--curved %d: an arc has two points at least", f.curved)
	}
	if len(args) > 1 && (f.json != "" || f.svg != "" || f.laid != "") {
		return fmt.Errorf("--json, --laid and --svg write one lay, %d instances are named", len(args))
	}
	fmt.Fprintf(out, "%-10s %6s %12s %9s %8s %8s %12s %10s\n", "instance", "points", "length", "density", "ratio", "seconds", "work", "work/s")
	for _, name := range args {
		if err := layOne(f, name, out); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}

func layOne(f *flags, name string, out io.Writer) error {
	in, err := readInstance(name)
	if err != nil {
		return err
	}
	if f.curved > 0 {
		in.curve(f.curved)
	}
	if f.laid != "" {
		if err := writeWhole(f.laid, in.file()); err != nil {
			return err
		}
	}
	opt := f.opt
	begin := time.Now()
	if f.seconds > 0 {
		opt.Until = func() float64 { return time.Since(begin).Seconds() / f.seconds }
	}
	problem := in.problem()
	plan, err := lay.Make(context.Background(), problem, opt)
	if err != nil {
		return err
	}
	seconds := time.Since(begin).Seconds()
	density := 100 * in.TotalArea / (in.Width * plan.Length)
	ratio := "-"
	if in.Best != nil && in.Best.Density > 0 {
		ratio = fmt.Sprintf("%.4f", density/in.Best.Density)
	}
	fmt.Fprintf(out, "%-10s %6.0f %12.6g %8.3f%% %8s %8.1f %12d %10.0f\n", in.Name, in.points(), plan.Length, density, ratio, seconds, plan.Tried, float64(plan.Tried)/seconds)
	if f.json != "" {
		if err := writeWhole(f.json, layFile(in, plan, density, seconds)); err != nil {
			return err
		}
	}
	if f.svg != "" {
		return writeWhole(f.svg, picture(&problem, plan))
	}
	return nil
}

func layFile(in *instance, plan *lay.Plan, density, seconds float64) []byte {
	type placement struct {
		Item     json.RawMessage `json:"item"`
		Rotation float64         `json:"rotation"`
		X        float64         `json:"x"`
		Y        float64         `json:"y"`
	}
	file := struct {
		Length     float64     `json:"length"`
		Density    float64     `json:"density"`
		Placements []placement `json:"placements"`
		Seconds    float64     `json:"seconds"`
	}{Length: plan.Length, Density: density, Seconds: seconds}
	for _, p := range plan.Placements {
		file.Placements = append(file.Placements, placement{in.Items[p.Piece].ID, p.Turn, p.X, p.Y})
	}
	data, err := json.Marshal(file)
	if err != nil {
		panic(err) // numbers from a valid plan always marshal
	}
	return append(data, '\n')
}

// writeWhole writes beside and then renames, so that no half file stays.
func writeWhole(name string, data []byte) error {
	beside := name + ".part"
	if err := os.WriteFile(beside, data, 0o644); err != nil {
		return err
	}
	return os.Rename(beside, name)
}
