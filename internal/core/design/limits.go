package design

// Limits of what may be asked for. They are the check's own range, common
// practice rather than a published rule: wide enough for any garden, narrow
// enough that a slip of the unit is caught.
const (
	minSizeM, maxSizeM           = 1.8288, 60.96 // 6 ft to 200 ft
	minDeepM, maxDeepM           = 0.3, 6.0
	maxAreaCoordM                = 500.0
	minHandles, maxHandles       = 3, 40
	minVertices, maxVertices     = 3, 2000
	maxKnots                     = 40
	minTurnoverH, maxTurnoverH   = 0.25, 48.0
	minDiameterM, maxDiameterM   = 0.010, 0.400
	maxLineM                     = 500.0
	maxRoughnessM                = 0.003
	maxLossCoef                  = 500.0
	minLipM, maxLipM             = 0.2, 12.0
	maxRiseM                     = 5.0
	minSheetM, maxSheetM         = 0.005, 0.15
	minZoneM2, maxZoneM2         = 0.5, 2000.0
	minZoneDepthM, maxZoneDepthM = 0.2, 3.0
	minPoreRatio, maxPoreRatio   = 0.2, 0.6
	minLoading, maxLoading       = 0.01, 20.0
	minDeckM, maxDeckM           = 0.9, 30.0
	minSlopeRatio, maxSlopeRatio = 0.5, 30.0
	minStepsM, maxStepsM         = 0.45, 6.0 // across the flight
	minTreadM, maxTreadM         = 0.20, 1.5
	minRiserM, maxRiserM         = 0.05, 0.40
	maxTreads                    = 30
	minTempDegC, maxTempDegC     = 0.5, 35.0
	minAltitudeM, maxAltitudeM   = -450.0, 4500.0
	maxPumps                     = 8
	minYear, maxYear             = 2000, 2100
	maxSpans, maxRuns, maxLoads  = 24, 12, 12
	maxNameRunes                 = 80
)

// Shapes lists the outlines in the order a person is shown them.
func Shapes() []Shape {
	return []Shape{Bean, Ellipse, RoundedRectangle, Freehand, Rectangle, Circle, LShape, Polygon}
}
