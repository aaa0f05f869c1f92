package main

import (
	"encoding/json"
	"fmt"
	"os"

	"hembook/internal/lay"
)

// An instance is a published set of pieces and the strip they go on.
type instance struct {
	Name      string  `json:"name"`
	Width     float64 `json:"strip_width"`
	TotalArea float64 `json:"total_area"`
	Best      *struct {
		Density float64 `json:"density_percent"`
	} `json:"best_known,omitempty"`
	Items []struct {
		ID        json.RawMessage `json:"id"`
		Quantity  int             `json:"quantity"`
		Rotations []float64       `json:"rotations"` // null: any
		Points    [][2]float64    `json:"points"`
	} `json:"items"`
}

func readInstance(name string) (*instance, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var in instance
	if err := json.Unmarshal(data, &in); err != nil {
		return nil, fmt.Errorf("not an instance: %w", err)
	}
	return &in, nil
}

func (in *instance) problem() lay.Problem {
	p := lay.Problem{Cloth: lay.Cloth{Width: in.Width}}
	for _, it := range in.Items {
		q := lay.Piece{Name: string(it.ID), Quantity: it.Quantity, Turns: it.Rotations}
		if it.Rotations == nil {
			q.Grain = lay.AnyWay
		}
		for _, pt := range it.Points {
			q.Outline = append(q.Outline, lay.Point{X: pt[0], Y: pt[1]})
		}
		p.Pieces = append(p.Pieces, q)
	}
	return p
}

// points is how many points a piece has on average.
func (in *instance) points() float64 {
	sum := 0
	for i := range in.Items {
		sum += len(in.Items[i].Points)
	}
	return float64(sum) / float64(len(in.Items))
}

// file is the instance as its file has it.
func (in *instance) file() []byte {
	data, err := json.Marshal(in)
	if err != nil {
		panic(err) // numbers that were read always marshal
	}
	return append(data, '\n')
}
