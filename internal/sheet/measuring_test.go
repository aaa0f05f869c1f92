package sheet

import (
	"testing"

	"hembook/internal/trade"
)

// TestAskedMeasurementsAreKnown: whatever a sheet asks to be measured can be taken in.
func TestAskedMeasurementsAreKnown(t *testing.T) {
	for _, name := range askedOrder {
		if _, ok := trade.MeasurementNamed(name); !ok {
			t.Errorf("%s is asked for, and no file of a wearer may hold it; near: %s", name, trade.NearestMeasurement(name))
		}
	}
}
