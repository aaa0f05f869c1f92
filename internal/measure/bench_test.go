package measure

import "testing"

func BenchmarkParseLength(b *testing.B) {
	for _, text := range []string{"15", "1.5 cm", "5/8 in", "1 1/4 yd", "3 ft 2 in", "1½ in", "5/8 inhc"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = ParseLength(text, UnitMM)
			}
		})
	}
}

func BenchmarkStyleLength(b *testing.B) {
	l := MM(24.625 * 25.4)
	for name, s := range map[string]Style{"metric": {}, "imperial": {System: Imperial}, "German": {Language: "de"}} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_ = s.Length(l)
			}
		})
	}
}
