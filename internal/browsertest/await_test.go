package browsertest_test

import "github.com/chromedp/cdproto/runtime"

// awaitPromise makes an evaluation wait for what its promise gives.
func awaitPromise(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }
