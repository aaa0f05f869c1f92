package tracing

import (
	"strconv"
	"strings"

	"hembook/internal/say"
)

// cardsAre names cards in words, with the verb: "cards 2, 5 and 7 are".
func cardsAre(numbers []int) string {
	if len(numbers) == 1 {
		return say.Of("tracing.card-is", strconv.Itoa(numbers[0]))
	}
	return say.Of("tracing.cards-are", listed(numbers))
}

// listed is numbers as one says them: 2, 5 and 7.
func listed(numbers []int) string {
	var words []string
	for _, n := range numbers {
		words = append(words, strconv.Itoa(n))
	}
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return say.Of("tracing.and", strings.Join(words[:len(words)-1], ", "), words[len(words)-1])
}
