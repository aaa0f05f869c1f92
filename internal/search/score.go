package search

// The ranking. A document's worth for a term is BM25's saturated frequency in
// its text, plus a bonus where the term stands in the title or a name: so every
// page with a word in its title comes before every page that has it in its text
// alone. The worth is kept as one of sixteen levels, four bits a posting. How
// rare a term is becomes its weight, one character.
//
//	score = Σ over the words asked, weight of the word × its best source's
//	        (share of the source × value of the document's level)
//
// BM25: S. Robertson and H. Zaragoza, "The Probabilistic Relevance Framework",
// Foundations and Trends in Information Retrieval 3 (2009), with their usual
// k1 = 1.2 and b = 0.75. The bonuses and levels are our own.

// levels are the lower bounds of the levels in thousandths; each is 1.28 times
// the one before.
var levels = [16]int{0, 128, 164, 210, 268, 344, 440, 563, 721, 922, 1181, 1511, 1934, 2476, 3169, 4057}

// levelValue is what a level is worth.
func levelValue(level int) int {
	if level == 0 {
		return 10
	}
	return (levels[level] + 5) / 10
}

// A count is how a document has a term.
type count struct {
	times uint16 // in the text
	bonus uint16 // for the title and names, thousandths
}

// titleBonus is what a word of a title or name of n words is worth,
// thousandths. The least is more than any text can reach.
func titleBonus(n int) uint16 { return uint16(max(15_000/(4+n), 1200)) }

func nameBonus(n int) uint16 { return uint16(max(13_500/(4+n), 1200)) }

// A word of the title or a name of a part of a page is worth less than one of a
// page's, and still more than any text.
func partTitleBonus(n int) uint16 { return uint16(max(10_000/(4+n), 1100)) }

func partNameBonus(n int) uint16 { return uint16(max(7_000/(4+n), 1050)) }

// underBonus is what a word of the title of a part's page is worth, and the name
// of a question that a document answers, thousandths: enough to be found, less than
// the page itself.
const underBonus = 300

// lastLevel is the level of a document that comes last.
func lastLevel(level int) int { return level / 4 }

// level is the level of a document of so many words that has a term so often.
func level(times, length, average, bonus int) int {
	worth := bonus
	if times > 0 {
		norm := 250 + 750*length/max(average, 1)
		frequency := times * 1_000_000 / norm
		worth += frequency * 1000 / (1200 + frequency)
	}
	at := 0
	for at+1 < len(levels) && worth >= levels[at+1] {
		at++
	}
	return at
}

// weightSteps are the eighths of a power of e, made by multiplying alone, which
// rounds the same way on every machine.
var weightSteps = func() (steps [91]float64) {
	const eighth = 1.1331484530668263 // e^(1/8)
	v := 1.0
	for i := range steps {
		steps[i] = v
		v *= eighth
	}
	return steps
}()

// weight is eight times BM25's idf of a term that df of n documents have, at
// least 1 and at most 90.
func weight(df, n int) int {
	rarity := 1 + (float64(n-df)+0.5)/(float64(df)+0.5)
	at := 0
	for at+1 < len(weightSteps) && rarity >= weightSteps[at+1] {
		at++
	}
	return max(at, 1)
}
