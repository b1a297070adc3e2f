package core

import (
	"tarnwright/internal/core/budget"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/takeoff"
	"tarnwright/internal/core/tariff"
	"tarnwright/internal/core/waterbill"
)

// Book is everything that is the builder's own: who they are, what they pay
// and charge, which pumps they fit, where they work. One currency, stated once.
type Book struct {
	Builder     Builder             `json:"builder"`
	Version     string              `json:"version"`
	Currency    string              `json:"currency"`
	Pumps       []pump.Model        `json:"pumps"`
	Pipes       []hydraulics.Size   `json:"pipes"`
	Tariff      tariff.Tariff       `json:"tariff"`
	WaterTariff waterbill.Tariff    `json:"water_tariff"`
	Climates    []waterbill.Climate `json:"climates"`
	Grid        power.Grid          `json:"grid"`
	Rates       takeoff.Rates       `json:"rates"`
	Prices      budget.PriceBook    `json:"prices"`
	Rules       []safety.Rule       `json:"rules"`
}

// Builder is whose page it is and what the law wants said beside a form.
type Builder struct {
	Name  string `json:"name"`
	Short string `json:"short"` // on buttons: "Send to Fernhollow"
	Email string `json:"email"`
	Phone string `json:"phone,omitempty"`
	Town  string `json:"town,omitempty"`
	// PrivacyURL is where the builder says how details are kept.
	PrivacyURL      string `json:"privacy_url"`
	RetentionMonths int    `json:"retention_months"`
	// Invented marks a demo: nobody of that name exists, and the page says so.
	Invented bool `json:"invented,omitempty"`
}
