package source

func shape() []Entry {
	return []Entry{
		{"steiner1840", "J. Steiner", "Über parallele Flächen: area and length of inner parallel sets", "1840", "A(t) = A − P t + c t²", FromMemory},
		{"catmull1974", "E. Catmull, R. Rom", "A class of local interpolating splines", "1974", "uniform, tension one half, as cubic Bézier inner points P ± ΔP/6", FromMemory},
		{"lorensen1987", "W. Lorensen, H. Cline", "Marching cubes: a high resolution 3D surface construction algorithm", "1987", "its square case: contours by linear interpolation on the edges of a grid", FromMemory},
		{"freeman1975", "H. Freeman, R. Shapira", "Determining the minimum-area encasing rectangle for an arbitrary closed curve", "1975", "a side of the rectangle lies on an edge of the convex hull", FromMemory},
	}
}
