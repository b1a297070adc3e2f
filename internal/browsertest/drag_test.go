package browsertest_test

import (
	"fmt"
	"sort"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"
)

// moves sends pointer moves to the drawing, one after the other, and times
// each from the move to the frame in which plan, section and figures stand: it
// waits for the rim to change and then for a task after the next frame.
const moves = `(async (n) => {
	const svg = document.querySelector(".sheet svg.dr"), out = [];
	const rim = () => svg.querySelector(".dr-wall").getAttribute("d");
	const painted = () => new Promise(done => requestAnimationFrame(() => {
		const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0);
	}));
	const changed = () => new Promise(done => {
		const was = rim(), late = setTimeout(() => { seen.disconnect(); done(); }, 3000);
		const seen = new MutationObserver(() => { if (rim() !== was) { seen.disconnect(); clearTimeout(late); done(); } });
		seen.observe(svg, {subtree: true, attributes: true, childList: true});
	});
	for (let i = 1; i <= n; i++) {
		const a = i * 0.21, x = %f - 45 * (1 - Math.cos(a)), y = %f + 40 * Math.sin(a);
		const stood = changed(), start = performance.now();
		svg.dispatchEvent(new PointerEvent("pointermove", {bubbles: true, cancelable: true, pointerId: 1, pointerType: "mouse", isPrimary: true, clientX: x, clientY: y}));
		await stood; await painted();
		out.push(performance.now() - start);
	}
	return out;
})(%d)`

// BenchmarkDrag prints how long a move of a ring takes to be painted, at full
// speed and with the processor slowed four times: for a page that has just
// come awake, and for the same one as it is pulled on, since a browser makes
// its better code of what runs often. Times are printed, never asserted.
func BenchmarkDrag(t *testing.B) {
	s := serve(t)
	const n = 300
	for _, slower := range []float64{1, 4} {
		b := live(t, s, size{1280, 860}, "/")
		x, y := b.place("#pond-ring-0")
		b.run(performance.Enable().WithTimeDomain(performance.EnableTimeDomainThreadTicks), emulation.SetCPUThrottlingRate(slower),
			input.DispatchMouseEvent(input.MousePressed, x, y).WithButton(input.Left).WithClickCount(1))
		for _, when := range []string{"just awake", "pulled on"} {
			var ms []float64
			before := b.cpu()
			b.run(chromedp.Evaluate(fmt.Sprintf(moves, x, y, n), &ms, awaitPromise))
			cpu := (b.cpu() - before) / n
			sort.Float64s(ms)
			fmt.Printf("drag, processor %g× slower, %s: %d moves, p50 %.1f ms, p98 %.1f ms, most %.1f ms; the page's own thread was busy %.1f ms a move\n",
				slower, when, len(ms), ms[len(ms)/2], ms[len(ms)*98/100], ms[len(ms)-1], cpu)
		}
		b.quiet()
	}
}

// cpu is how long the page's thread has been at work, in milliseconds: its own
// time, so that other work on the machine does not count.
func (b *tab) cpu() (ms float64) {
	b.t.Helper()
	b.run(chromedp.ActionFunc(func(ctx contextOf) error {
		all, err := performance.GetMetrics().Do(ctx)
		for _, m := range all {
			if m.Name == "TaskDuration" {
				ms = m.Value * 1000
			}
		}
		return err
	}))
	return ms
}
