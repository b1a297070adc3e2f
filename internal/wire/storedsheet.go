package wire

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
)

// ErrStoredSheet says that a stored sheet is not one that SheetJSON wrote.
var ErrStoredSheet = errors.New("no stored sheet")

// ReadStoredSheet reads the figures of a sheet that SheetJSON wrote, with who
// worked it out. Keys it does not know are passed over: a later version of the
// program reads what an earlier one stored.
func ReadStoredSheet(raw []byte) (*sheet.Sheet, error) {
	var in struct {
		CoreVersion int    `json:"core_version"`
		Book        string `json:"book"`
		Figures     []struct {
			ID    string          `json:"id"`
			Value json.RawMessage `json:"value"`
			Unit  string          `json:"unit"`
		} `json:"figures"`
	}
	if err := json.Unmarshal(raw, &in); err != nil {
		return nil, fmt.Errorf("read a stored sheet: %w", err)
	}
	out := &sheet.Sheet{CoreVersion: in.CoreVersion, Book: in.Book}
	for _, f := range in.Figures {
		g := sheet.Figure{ID: sheet.ID(f.ID), Unit: sheet.Unit(f.Unit)}
		if string(f.Value) == "null" || len(f.Value) == 0 {
			continue
		}
		var err error
		if isMoney(g.Unit) {
			g.Amount, err = storedAmount(f.Value)
		} else {
			g.Value, err = strconv.ParseFloat(string(f.Value), 64)
		}
		if err != nil {
			return nil, fmt.Errorf("read %s of a stored sheet: %w", g.ID, err)
		}
		if _, twice := out.Find(g.ID); twice {
			return nil, fmt.Errorf("%w: a stored sheet has %q twice", ErrStoredSheet, g.ID)
		}
		out.Add(g)
	}
	return out, nil
}

func storedAmount(raw json.RawMessage) (money.Amount, error) {
	var text string
	if err := json.Unmarshal(raw, &text); err != nil {
		return money.Amount{}, err
	}
	return money.Parse(text)
}
