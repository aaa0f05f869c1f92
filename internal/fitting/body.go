package fitting

import (
	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// checkWearer holds a wearer's body against what people measure. What is said
// of it never quotes a value.
func checkWearer(w *record.Wearer, faults *fault.Faults) {
	who := trade.WhoIs(w.For.Who.V)
	checkBody(w.Body, who, faults)
	checkRatios(w.Body, who, faults)
	for i := range w.Earlier {
		checkBody(w.Earlier[i].Body, who, faults)
		checkRatios(w.Earlier[i].Body, who, faults)
	}
}

func checkBody(body record.Dict[record.Length], who trade.Wearer, faults *fault.Faults) {
	if otherUnit(body, who) {
		faults.Wrong(body[0].V.At, say.Of("fitting.were-they-taken-in-mm-write-units"), say.Of("fitting.none-of-these-measurements-can-be-a"))
		return
	}
	for i := range body {
		name, v := body[i].Name, body[i].V
		m, ok := trade.MeasurementNamed(name.V)
		if !ok {
			near := trade.NearestMeasurement(name.V)
			faults.LookAgain(name.At, meant.Ask(near), say.Of("fitting.there-is-no-body-measurement", say.Quoted(name.V))).Instead(name.V, near)
			continue
		}
		if m.Unit != "mm" {
			faults.Wrong(name.At, say.Of("fitting.leave-it-out-only-lengths-are-written"), say.Of("fitting.is-no-length", say.Quoted(name.V))).Without(name.At)
			continue
		}
		if !v.Given() {
			continue
		}
		switch level, _ := trade.Plausible(name.V, v.V.MM(), who); level {
		case trade.Odd:
			faults.LookAgain(v.At, say.Of("fitting.measure-again-to-be-sure"), say.Of("fitting.this-is-outside-everyone-measured-in", name.V))
		case trade.Wrong:
			faults.Wrong(v.At, say.Of("fitting.is-the-unit-right"), say.Of("fitting.this-cannot-be-a-bodys", name.V))
		}
	}
}

// otherUnit reports whether all lengths of a body, and several, are those of none, and
// a tenth of each, or a twenty-fifth, is.
func otherUnit(body record.Dict[record.Length], who trade.Wearer) bool {
	wrong := map[float64]int{}
	all := 0
	for i := range body {
		m, ok := trade.MeasurementNamed(body[i].Name.V)
		if !ok || m.Unit != "mm" || !body[i].V.Given() {
			continue
		}
		all++
		for _, one := range [...]float64{10, 25.4} {
			mm := body[i].V.V.MM()
			level, _ := trade.Plausible(body[i].Name.V, mm, who)
			then, _ := trade.Plausible(body[i].Name.V, mm/one, who)
			if level == trade.Wrong && then != trade.Wrong {
				wrong[one]++
			}
		}
	}
	return all > 2 && (wrong[10] == all || wrong[25.4] == all)
}

// checkRatios looks for measurements that do not go with each other.
func checkRatios(body record.Dict[record.Length], who trade.Wearer, faults *fault.Faults) {
	taken := make(map[string]record.Length, len(body))
	for i := range body {
		if m, ok := trade.MeasurementNamed(body[i].Name.V); ok && body[i].V.Given() {
			taken[m.Name] = body[i].V
		}
	}
	for _, r := range trade.Ratios() {
		a, ok := taken[r.Of]
		b, also := taken[r.To]
		if !ok || !also {
			continue
		}
		if level, _ := trade.PlausibleRatio(r.Of, r.To, a.V.MM(), b.V.MM(), who); level == trade.Odd {
			faults.LookAgain(a.At, say.Of("fitting.measure-both-once-more"), say.Of("fitting.this-beside-this-is-outside-everyone", words.Plain(r.Of), words.Plain(r.To)))
		}
	}
}
