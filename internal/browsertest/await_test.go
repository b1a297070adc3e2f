package browsertest_test

import (
	"context"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/storage"
)

// awaitPromise makes an evaluation wait for what its promise gives.
func awaitPromise(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }

// usage asks the browser how much it keeps for an origin.
func usage(ctx context.Context, origin string) (bytes float64, err error) {
	bytes, _, _, _, err = storage.GetUsageAndQuota(origin).Do(ctx)
	return bytes, err
}
