package geom

// step is a vertical face of a profile: at one distance, from one depth down
// to another.
type step struct{ at, top, foot float64 }

func (p *profile) steps() []step {
	var out []step
	for i := 1; i < len(p.at); i++ {
		if p.at[i] == p.at[i-1] && p.depth[i] > p.depth[i-1] {
			out = append(out, step{p.at[i], p.depth[i-1], p.depth[i]})
		}
	}
	return out
}

// faces returns the area of the vertical faces. A face runs at a constant
// distance from its own part of the rim, whatever else is near, so its rays
// are cut by that part alone; its height is what the other laws leave of it.
func (f *Field) faces(nodes []node, strips []strip) float64 {
	sum := 0.0
	for s := walled; s <= beach; s++ {
		steps := f.laws[s].bowl.steps()
		if len(steps) == 0 || !f.laws[s].there() {
			continue
		}
		mixed := f.laws[1-s].there()
		for i := range strips {
			if strips[i].side == s {
				sum += f.stripFaces(nodes, strips[i], steps, mixed)
			}
		}
	}
	return sum
}

func (f *Field) stripFaces(nodes []node, st strip, steps []step, mixed bool) float64 {
	sum, own := 0.0, false
	for _, face := range steps {
		if mixed && !own && face.at > st.cut[0] {
			own = true
			st.bound(f.ownCut(&nodes[st.nodes[0]], st.side), f.ownCut(&nodes[st.nodes[1]], st.side))
		}
		if face.at > st.end {
			continue
		}
		p := st.o.plus(st.dir.times(face.at))
		left := f.deepM
		if len(f.floor.at) > 0 {
			left = least(left, f.floor.value(p.dot(f.axis)))
		}
		for k := range f.laws {
			if l := &f.laws[k]; side(k) != st.side && l.there() && left > face.top {
				far, _ := l.distance(p, 0)
				left = least(left, l.bowl.value(far))
			}
		}
		if height := least(left, face.foot) - least(left, face.top); height > 0 {
			sum += float64(height * st.width(face.at))
		}
	}
	return sum
}

// ownCut is a node's cut by its own part of the rim alone.
func (f *Field) ownCut(nd *node, s side) float64 {
	t, _ := f.laws[s].from.cut(nd, f.rim.size, 0)
	return t
}
