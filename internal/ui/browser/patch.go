package browser

import "github.com/maxence-charriere/go-app/v10/pkg/app"

func patcher() app.Value { return app.Window().Get("tarnwrightPatch") }

// Take makes the element with an id what the markup says, keeping what is
// there already, and returns how many elements and texts it is now.
func Take(id, markup string) int {
	n := patcher().Call("take", id, markup)
	if !n.Truthy() {
		return 0
	}
	return n.Int()
}

// Follow takes the steps of a change in what was taken. It returns false when
// the page is not as it was left.
func Follow(steps string) bool { return steps == "" || patcher().Call("follow", steps).Truthy() }
