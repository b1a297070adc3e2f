// Package waterbill works out the water a pond loses and what topping it up
// costs: evaporation from open water by the combination equation, rain, splash
// and clean-out, by month; and how far the level falls overnight.
package waterbill

// Climate is a site's normals by month.
type Climate struct {
	ID          string    `json:"id"`
	Name        string    `json:"name"`
	Source      string    `json:"source"`
	LatitudeDeg float64   `json:"latitude_deg"`
	AltitudeM   float64   `json:"altitude_m"`
	Months      [12]Month `json:"months"`
}

// Month is a month's normals. Wind is at two metres; sunshine is bright hours
// a day.
type Month struct {
	TMaxDegC   float64 `json:"t_max_deg_c"`
	TMinDegC   float64 `json:"t_min_deg_c"`
	RHMaxRatio float64 `json:"rh_max_ratio"` // 0.84 is 84 %, at the coolest time of the day
	RHMinRatio float64 `json:"rh_min_ratio"` // percent, at the warmest
	WindMPerS  float64 `json:"wind_m_per_s"`
	SunHPerDay float64 `json:"sun_h_per_day"`
	RainMm     float64 `json:"rain_mm"`
}

// File is climate.json: the sites that a builder works in.
type File struct {
	Version  int       `json:"climate_version"`
	Invented bool      `json:"invented"`
	Climates []Climate `json:"climates"`
}
