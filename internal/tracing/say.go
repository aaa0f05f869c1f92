package tracing

import (
	"strconv"
	"strings"
)

// cardsAre names cards in words, with the verb: "cards 2, 5 and 7 are".
func cardsAre(numbers []int) string {
	if len(numbers) == 1 {
		return "card " + strconv.Itoa(numbers[0]) + " is"
	}
	return "cards " + listed(numbers) + " are"
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
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
