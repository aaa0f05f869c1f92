package search

import (
	"bytes"
	"compress/gzip"
	"context"
	"flag"
	"fmt"
	"hembook/internal/chromium"
	"maps"
	"math/rand/v2"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/heapprofiler"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// The measures of the search, printed as a table. They hold no one to a time:
//
//	go test ./internal/search -run Measure -measure 1000,10000 -v
var (
	measure = flag.String("measure", "", "measure the search over archives of so many documents, comma between")
	each    = flag.Int("each", 200, "queries of each kind that are measured")
	opened  = flag.Int("opened", 12, "queries of each kind for which the page is opened anew")
)

func TestMeasure(t *testing.T) {
	if *measure == "" {
		t.Skip("measures only when asked: -measure 1000,10000")
	}
	ctx := chromium.LongTab(t)
	for _, n := range strings.Split(*measure, ",") {
		var count int
		fmt.Sscan(n, &count)
		t.Run(n, func(t *testing.T) { measureArchive(t, ctx, count) })
	}
}

// A timing is how long an answer took in the page, from the typed letter.
type timing struct {
	Docs  []int
	First float64 // ms to the first result in the page
	All   float64 // ms to all ten
	Total int
}

// timer types queries one after the other and takes the time of each.
const timer = `(async () => {
	const page = document.getElementById("search"), input = page.querySelector("input"), out = [];
	for (const q of %s) {
		const begun = performance.now();
		const answer = {First: -1};
		const first = () => { answer.First = performance.now() - begun; };
		page.addEventListener("first", first, {once: true});
		await new Promise(done => {
			page.addEventListener("found", e => {
				answer.All = performance.now() - begun;
				answer.Docs = e.detail.result.docs;
				answer.Total = e.detail.result.total;
				done();
			}, {once: true});
			input.value = q;
			input.dispatchEvent(new Event("input", {bubbles: true}));
		});
		page.removeEventListener("first", first);
		out.push(answer);
	}
	return out;
})()`

func measureArchive(t *testing.T, ctx context.Context, n int) {
	a := synthetic(n, 1)
	begun := time.Now()
	x := build(t, a.docs, syntheticOptions)
	took := time.Since(begun)
	scripts := themeScripts(t)
	page := publish(t, x, scripts)
	size := 0
	for _, f := range x.Files() {
		size += len(f.Data)
	}
	r := rand.New(rand.NewPCG(1, 1))
	q := newQueries(a, r, *each)
	row := func(name, format string, args ...any) {
		t.Logf("%-46s %s", name, fmt.Sprintf(format, args...))
	}
	row("documents", "%d, made into an index in %.1f s", n, took.Seconds())
	row("index bytes ÷ text bytes", "%.3f (%d files, %d bytes)", float64(size)/float64(x.TextBytes), len(x.Files()), size)
	for _, kind := range []string{"one word", "two words", "title", "title with a slip", "beginning"} {
		measureFirst(t, ctx, page, kind, q[kind], row)
	}
	for _, kind := range queryKinds {
		w := open(t, ctx, page)
		cold := eval[[]timing](w, timer, q[kind])
		warm := eval[[]timing](w, timer, q[kind])
		again := eval[[]timing](w, timer, q[kind])
		for i := range warm {
			warm[i].All = min(warm[i].All, again[i].All)
			warm[i].First = min(warm[i].First, again[i].First)
		}
		row("ms per query, "+kind, "p95 to first result %.1f kept, %.1f not; to all ten %.1f kept, %.1f not; median to all ten %.1f kept, %.1f not",
			at(95, warm, firstTime), at(95, cold, firstTime), at(95, warm, allTime), at(95, cold, allTime), at(50, warm, allTime), at(50, cold, allTime))
		row("heap after them, "+kind, "%.1f MB", heapUsed(t, w))
	}
	measureRight(t, ctx, page, a, x, row)
}

func firstTime(t timing) float64 {
	if t.First < 0 { // nothing found: the answer is that
		return t.All
	}
	return t.First
}
func allTime(t timing) float64 { return t.All }

// at is a percentile.
func at(percent int, list []timing, of func(timing) float64) float64 {
	var v []float64
	for _, t := range list {
		v = append(v, of(t))
	}
	slices.Sort(v)
	return v[len(v)*percent/100]
}

var queryKinds = []string{"one word", "two words", "title", "title with a slip", "beginning"}

// newQueries draws queries from the documents themselves.
func newQueries(a *archive, r *rand.Rand, n int) map[string][]string {
	q := map[string][]string{}
	doc := func() Document { return a.docs[r.IntN(len(a.docs))] }
	word := func() string {
		words := strings.Fields(doc().Text)
		return strings.Trim(words[r.IntN(len(words))], ".,")
	}
	for range n {
		q["one word"] = append(q["one word"], word()+" ")
		words := strings.Fields(doc().Text)
		i := r.IntN(len(words) - 1)
		q["two words"] = append(q["two words"], strings.Trim(words[i], ".,")+" "+strings.Trim(words[i+1], ".,")+" ")
		q["title"] = append(q["title"], doc().Title)
		q["title with a slip"] = append(q["title with a slip"], slipInTitle(r, doc().Title))
		w := word()
		q["beginning"] = append(q["beginning"], w[:min(len(w), 1+r.IntN(4))])
	}
	return q
}

// measureFirst opens the page anew for some queries and weighs what it reads.
func measureFirst(t *testing.T, ctx context.Context, page, kind string, queries []string, row func(string, string, ...any)) {
	var bytesFirst, bytesAll, times, hops, files []float64
	kinds := map[string]float64{}
	base := "file://" + filepath.Dir(page)
	always := []string{base + "/search/first.js"}
	for _, f := range themeScripts(t) {
		always = append(always, base+"/"+f.Name)
	}
	for _, q := range queries[:min(len(queries), *opened)] {
		w := open(t, ctx, page)
		eval[int](w, spy)
		answer := eval[[]timing](w, timer, []string{q})[0]
		times = append(times, firstTime(answer))
		bytesAll = append(bytesAll, sum(weigh(t, append(eval[[]string](w, `names`), always...))))
		first := weigh(t, append(slices.DeleteFunc(eval[[]string](w, `namesFirst || names`), func(n string) bool {
			_, shard, ok := strings.Cut(n, "/t/")
			return ok && !strings.Contains(shard, fmt.Sprintf("/%d.js", answer.Docs[0]/textsInFile))
		}), always...))
		bytesFirst, files = append(bytesFirst, sum(first)), append(files, float64(len(first)))
		hops = append(hops, eval[float64](w, `hopsFirst || hops`))
		for name, bytes := range first {
			_, rest, _ := strings.Cut(name, "/sub/search/")
			kinds[rest[:strings.IndexAny(rest+"/", "/.")]] += bytes
		}
		chromedp.Cancel(w.ctx)
	}
	n := float64(len(times))
	row("first query, "+kind, "%.1f KB to the first result (most %.1f), %.1f KB to all ten (most %.1f); first result %.0f ms (least %.0f, most %.0f) after %.1f files (most %.0f) asked for %.1f times one after another (most %.0f)",
		sum(bytesFirst)/n/1000, slices.Max(bytesFirst)/1000, sum(bytesAll)/n/1000, slices.Max(bytesAll)/1000, sum(times)/n, slices.Min(times), slices.Max(times), sum(files)/n, slices.Max(files), sum(hops)/n, slices.Max(hops))
	var of []string
	for _, k := range slices.Sorted(maps.Keys(kinds)) {
		of = append(of, fmt.Sprintf("%s %.1f", k, kinds[k]/n/1000))
	}
	row("  KB to the first result, by kind of file", "%s", strings.Join(of, ", "))
}

// spy notes the scripts that the page asks for: a browser keeps no account of
// files. The texts of the other nine results are asked for as the first is being
// shown; it is shown without them, so they are weighed apart. The values of the
// filters are read after the results. A hop is a script that is asked for when
// no other but the pieces of texts is on its way.
const spy = `window.names = [], window.namesFirst = null, window.hops = 0, window.hopsFirst = 0, window.onTheirWay = 0,
document.getElementById("search").addEventListener("first", () => { namesFirst ||= [...names]; hopsFirst ||= hops; }),
new MutationObserver(list => {
	for (const m of list) for (const e of m.addedNodes) if (e.src && !e.src.includes("facets.js")) {
		names.push(e.src);
		if (e.src.includes("pieces.js")) continue;
		if (!onTheirWay++) hops++;
	}
}).observe(document.head, {childList: true});
((take => { hembook.take = (name, data) => { if (name !== "pieces") onTheirWay--; take(name, data); }; })(hembook.take), 0)`

func sum[M []float64 | map[string]float64](v M) float64 {
	total := 0.0
	switch v := any(v).(type) {
	case []float64:
		for _, x := range v {
			total += x
		}
	case map[string]float64:
		for _, k := range slices.Sorted(maps.Keys(v)) {
			total += v[k]
		}
	}
	return total
}

// weigh says what files weigh as they are sent, gzipped.
func weigh(t *testing.T, names []string) map[string]float64 {
	if len(names) < 3 {
		t.Fatalf("the page read only %v", names)
	}
	weights := map[string]float64{}
	for _, n := range names {
		u, err := url.Parse(n)
		if err != nil {
			t.Fatal(err)
		}
		data, err := os.ReadFile(filepath.FromSlash(u.Path))
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		g := gzip.NewWriter(&out)
		g.Write(data)
		g.Close()
		weights[n] = float64(out.Len())
	}
	return weights
}

func heapUsed(t *testing.T, w *window) float64 {
	if _, err := chromedp.Call(w.ctx, heapprofiler.CollectGarbage, cdp.Empty{}); err != nil {
		t.Fatal(err)
	}
	used, err := chromedp.Call(w.ctx, runtime.GetHeapUsage, cdp.Empty{})
	if err != nil {
		t.Fatal(err)
	}
	return used.UsedSize / 1e6
}

// measureRight counts queries with one slip that still find the document whose
// title was meant, each kind of slip by itself, and beginnings that answer as
// the slow search does.
func measureRight(t *testing.T, ctx context.Context, page string, a *archive, x *Index, row func(string, string, ...any)) {
	w := open(t, ctx, page)
	r := rand.New(rand.NewPCG(2, 2))
	total, right := 0, 0
	for kind, name := range slipKinds {
		var queries []string
		var want []int
		for len(queries) < *each {
			d := r.IntN(len(a.docs))
			words := strings.Fields(a.docs[d].Title)
			i := r.IntN(len(words))
			if len(words[i]) < 4 {
				continue
			}
			words[i] = slipOf(r, words[i], kind)
			queries, want = append(queries, strings.Join(words, " ")), append(want, d)
		}
		found := 0
		for i, got := range asking(w, queries, 10) {
			if slices.Contains(got, want[i]) {
				found++
			}
		}
		total, right = total+len(queries), right+found
		row("right document in the first ten, "+name, "%.1f %%", 100*float64(found)/float64(len(queries)))
	}
	row("right document in the first ten, one slip", "%.2f %%", 100*float64(right)/float64(total))
	f := ofIndex(x)
	if len(a.docs) <= 2000 {
		f = newReference(a.docs, syntheticOptions.Synonyms)
	}
	queries := newQueries(a, r, *each)["beginning"]
	same := 0
	for i, got := range asking(w, queries, 10) {
		if slices.Equal(got, f.answer(queries[i], 10, nil)) {
			same++
		}
	}
	row("beginnings answered as by the slow search", "%.1f %%", 100*float64(same)/float64(len(queries)))
}
