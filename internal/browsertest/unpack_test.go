package browsertest_test

import (
	"fmt"
	"io"
	"net/http"
	"os"
	"regexp"
	"testing"
)

// fetched is what stands at an address.
func fetched(t *testing.T, url string) []byte {
	t.Helper()
	answer, err := http.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = answer.Body.Close() }()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// unpackHere opens a page of its own with the unpacker, the packed widget as it
// comes over the line and the widget as it was built.
func unpackHere(t *testing.T) *tab {
	t.Helper()
	script, err := os.ReadFile("../../web/js/unpack.js")
	if err != nil {
		t.Fatal(err)
	}
	url := serve(t).url
	packed := regexp.MustCompile(`data-packed="([^"]+)"`).FindSubmatch(fetched(t, url))
	if packed == nil {
		t.Fatal("the page does not say where the packed widget is: run make dist")
	}
	b := open(t, size{412, 823}, scriptOn)
	evalAwait[int](b, fmt.Sprintf(`(async () => {
		new Function("self", %s)(window);
		window.bytes = async answer => new Uint8Array(await answer.arrayBuffer());
		window.packed = await bytes(await fetch(%q));
		window.built = await bytes(await fetch(%q));
		window.whole = async (bytes, step) => {
			const out = [], u = tarnwrightUnpacker(piece => out.push(piece));
			for (let i = 0; i < bytes.length; i += step) u.push(bytes.subarray(i, i + step));
			u.end();
			return joined(out);
		};
		window.joined = async pieces => new Uint8Array(await new Blob(pieces).arrayBuffer());
		window.same = (a, b) => a.length === b.length && a.every((x, i) => x === b[i]);
		return 0;
	})()`, quoted(t, script), url+string(packed[1]), url+"/web/app.wasm"))
	return b
}

// TestUnpack_GivesTheWidgetByteForByte: however the line cuts what comes.
func TestUnpack_GivesTheWidgetByteForByte(t *testing.T) {
	t.Parallel()
	b := unpackHere(t)
	if got := evalAwait[string](b, `(async () => {
		let wrong = "";
		for (const step of [777, 16384, 65536, packed.length]) {
			if (!same(await whole(packed, step), built)) wrong += step + " ";
		}
		const streamed = tarnwrightUnpack(new Response(new Blob([packed]).stream()));
		if (streamed.headers.get("Content-Type") !== "application/wasm") wrong += "type ";
		if (!same(await bytes(streamed), built)) wrong += "streamed ";
		return wrong + built.length;
	})()`); !regexp.MustCompile(`^\d{7,}$`).MatchString(got) {
		t.Errorf("unpacked it is not as built: %s", got)
	}
}

// TestUnpack_OfBrokenBytesSaysSo: what is cut short or damaged on its way is an
// error, or at worst another program, and never a page that waits for ever.
func TestUnpack_OfBrokenBytesSaysSo(t *testing.T) {
	t.Parallel()
	b := unpackHere(t)
	if got := evalAwait[string](b, `(async () => {
		let passed = [], seed = 7;
		const next = below => (seed = (seed * 48271) % 2147483647) % below;
		const fails = async bytes => { try { await whole(bytes, 65536); return false; } catch (e) { return true; } };
		for (const to of [0, 1, 100, packed.length >> 1, packed.length - 3, packed.length - 1])
			if (!await fails(packed.subarray(0, to))) passed.push("cut at " + to);
		if (!await fails(await joined([packed, new Uint8Array(1)]))) passed.push("with more behind it");
		for (const other of ["", "\0asm\x01\0\0\0", "<!doctype html><p>Not here.</p>"])
			if (!await fails(new TextEncoder().encode(other))) passed.push("another file: " + other);
		for (let k = 0; k < 60; k++) {
			const at = next(packed.length), was = packed[at];
			packed[at] ^= 1 + next(255);
			const out = await whole(packed, 65536).catch(() => null);
			if (out && same(out, built)) passed.push("changed at " + at);
			packed[at] = was;
		}
		let refused = "";
		try { tarnwrightUnpack(new Response("", {status: 404})); } catch (e) { refused = e.message; }
		if (!refused.includes("404")) passed.push("an answer of 404");
		const cut = tarnwrightUnpack(new Response(new Blob([packed.subarray(0, 1e6)]).stream()));
		await bytes(cut).then(() => passed.push("a stream that ends early"), () => 0);
		return passed.join("; ");
	})()`); got != "" {
		t.Errorf("taken as whole: %s", got)
	}
}
