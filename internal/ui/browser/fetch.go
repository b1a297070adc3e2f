package browser

import (
	"errors"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Reply is the answer to a request; a Status of 0 is no answer at all.
type Reply struct {
	Status int
	Body   string
}

// errUnfetched says that what the page began to fetch did not come.
var errUnfetched = errors.New("what the page needs did not come")

// Awaited is the text that a promise of the page gives, once it has given it.
func Awaited(name string) (string, error) {
	promise := app.Window().Get(name)
	if !promise.Truthy() {
		return "", errUnfetched
	}
	type outcome struct {
		text string
		err  error
	}
	done := make(chan outcome, 1)
	settle(promise,
		func(v app.Value) { done <- outcome{text: v.String()} },
		func() { done <- outcome{err: errUnfetched} })
	o := <-done
	return o.text, o.err
}

// Post sends JSON under an idempotency key and calls done once with the
// answer. The framework's Then has no way to hear of a failure, so both ends
// of each promise are held here and released together.
func Post(path, key, body string, done func(Reply)) {
	headers := map[string]any{
		"Content-Type":    "application/json",
		"Accept":          "application/json",
		"Idempotency-Key": `"` + key + `"`,
	}
	promise := app.Window().Call("fetch", path, map[string]any{
		"method": "POST", "body": body, "headers": headers, "credentials": "omit", "cache": "no-store",
	})
	settle(promise, func(response app.Value) {
		status := response.Get("status").Int()
		settle(response.Call("text"),
			func(text app.Value) { done(Reply{status, text.String()}) },
			func() { done(Reply{Status: status}) })
	}, func() { done(Reply{}) })
}

func settle(promise app.Value, kept func(app.Value), broken func()) {
	var yes, no app.Func
	free := func() { yes.Release(); no.Release() }
	yes = app.FuncOf(func(_ app.Value, args []app.Value) any {
		free()
		if len(args) > 0 {
			kept(args[0])
		}
		return nil
	})
	no = app.FuncOf(func(app.Value, []app.Value) any {
		free()
		broken()
		return nil
	})
	promise.Call("then", yes, no)
}
