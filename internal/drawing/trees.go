package drawing

import (
	"math"

	"tarnwright/internal/markup"
)

// plantTrees finds where trees have room round the pond. They are far back and
// mean nothing; on a small picture there are none.
func (d *drawer) plantTrees() []stone {
	if !d.full() || d.which&partPlan == 0 || len(d.o.Pins) > 0 || d.o.Colour == Ink {
		return nil
	}
	wide, high := d.o.WidthPx, d.view.PlanHeightPx-d.furniturePx()
	var stood []stone
	for i, s := range []stone{
		{at: pt{wide - 22, high * 0.17}, r: 42}, {at: pt{wide - 26, high * 0.78}, r: 56}, {at: pt{96, high * 0.95}, r: 30},
		{at: pt{30, high * 0.12}, r: 40}, {at: pt{wide - 20, high * 0.45}, r: 34}, {at: pt{40, high * 0.93}, r: 34},
		{at: pt{wide - 70, high * 0.93}, r: 36}, {at: pt{70, high * 0.14}, r: 32},
	} {
		if len(stood) < 3 && d.treeFits(s.at, s.r, stood) {
			s.luck = sow(saltTree, i, 0)
			stood = append(stood, s)
		}
	}
	return stood
}

func (d *drawer) trees() markup.Node {
	var kids []markup.Node
	for _, t := range d.grove {
		kids = append(kids, d.tree(t.at, t.r, t.luck))
	}
	return layer("dr-trees", kids...)
}

func (d *drawer) treeFits(c pt, r float64, stood []stone) bool {
	for _, s := range stood {
		if c.to(s.at) < r+s.r+10 {
			return false
		}
	}
	for _, line := range [][]pt{d.rimPx, d.zonePx, d.deckPx, d.all(d.cascadeM), {d.at(pt{d.p.Pump.X, d.p.Pump.Y})}} {
		if c.near(line, r+22) {
			return false
		}
	}
	for _, line := range [][]pt{d.all(d.suctionM), d.all(d.dischargeM), d.all(d.jetPipeM), {d.across.from, d.across.to}, {d.down.from, d.down.to}} {
		if c.fromChain(line) < r+8 {
			return false
		}
	}
	for _, q := range d.beachM {
		if c.to(d.at(q)) < r+beachReachM*d.view.ScalePxPerM+6 {
			return false
		}
	}
	return true
}

// tree is a crown of scallops seen from above, shaded on one side.
func (d *drawer) tree(c pt, r float64, luck chance) markup.Node {
	var crown, shade, twigs, leaves pen
	const n = 13
	angle := make([]float64, n)
	sum := 0.0
	for i := range angle {
		angle[i] = sum
		sum += luck.span(0.7, 1.4)
	}
	edge := func(i int, k float64) pt { return c.polar(r*k, angle[i%n]/sum*2*math.Pi) }
	for i := range n + 1 {
		if i == 0 {
			crown.move(edge(0, 1))
		} else {
			crown.arc(edge(i-1, 1).to(edge(i, 1))*0.55, edge(i, 1))
		}
	}
	crown.close()
	for _, k := range []float64{0.8, 0.6} {
		for i := range n / 3 {
			shade.move(edge(i, k)).arc(edge(i, k).to(edge(i+1, k))*0.55, edge(i+1, k))
		}
	}
	for i := range 7 {
		a := (float64(i) + luck.part()*0.6) / 7 * 2 * math.Pi
		long := r * luck.span(0.42, 0.64)
		twigs.move(c).quad(c.polar(long*0.5, a+0.25), c.polar(long, a))
	}
	for range int(r * 1.3) {
		q := c.polar(r*(0.35+0.58*math.Sqrt(luck.part())), luck.span(-0.4, 2.2))
		leaves.move(pt{q.x - 1.6, q.y}).quad(pt{q.x, q.y - 2.2}, pt{q.x + 1.6, q.y})
	}
	return markup.E("g", crown.node("dr-crown"), shade.node("dr-twig"), twigs.node("dr-twig"), leaves.node("dr-twig"))
}
