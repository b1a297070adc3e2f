package drawing

import "tarnwright/internal/markup"

func (d *drawer) aboveWaterPx() float64       { return 80 }
func (d *drawer) belowSectionPx() float64     { return 46 }
func (d *drawer) section() markup.Node        { return markup.None() }
func (d *drawer) sectionClips() []markup.Node { return nil }
