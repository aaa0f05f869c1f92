package garment

import (
	"time"

	"hembook/internal/figure"
)

// unknown is a value that is not known, because …
func unknown(why string) figure.Value { return figure.Value{Why: why} }

func moment(t time.Time) figure.Value { return figure.Value{Moment: &t} }
