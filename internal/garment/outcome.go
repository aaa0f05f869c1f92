package garment

import "fmt"

// Outcome says in a sentence whether what is sewn together fits together.
func Outcome(list []Check) string {
	held, bad := 0, 0
	for i := range list {
		if list[i].Judged {
			held++
			if !list[i].Good {
				bad++
			}
		}
	}
	switch {
	case held == 0:
		return "There is nothing to compare on this garment."
	case bad == 0 && held == 1:
		return "The one comparison holds."
	case bad == 0:
		return fmt.Sprintf("All %d comparisons hold.", held)
	}
	return fmt.Sprintf("%d of %d do not meet.", bad, held)
}
