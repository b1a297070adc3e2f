package live_test

import (
	"fmt"
	"testing"

	"tarnwright/internal/markup"
	"tarnwright/internal/ui/page"
)

// A price typed for three ponds: worked out, worded, and the tree changed.
func BenchmarkFrame_PriceForThree(b *testing.B) {
	cfg, s, asked := besides(b)
	s.Live = true
	m, easel := page.Paint(s, asked.Of(s), cfg.Kit, page.Easel{Width: page.Wide})
	stands := markup.Stand(page.Tree(s, m))
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		s = page.Update(s, page.Action{Name: page.ActEach, Arg: "power", Value: fmt.Sprintf("0.%d", 1000001+i)})
		m, easel = page.Paint(s, asked.Of(s), cfg.Kit, easel)
		stands.Change(page.Tree(s, m))
	}
}
