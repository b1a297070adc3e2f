package drawing_test

import (
	"testing"

	"tarnwright/internal/drawing"
)

func BenchmarkSheet_Settled(b *testing.B) {
	d := demo()
	p, o := plan(d), options(d)
	for b.Loop() {
		drawing.Sheet(p, o)
	}
}

func BenchmarkSheet_Moving(b *testing.B) {
	d := demo()
	p, o := plan(d), options(d)
	last := drawing.Sheet(p, o)
	o.Detail, o.Last = drawing.Moving, &last
	for b.Loop() {
		drawing.Sheet(p, o)
	}
}
