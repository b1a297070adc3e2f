// Puts the pond check into a page that another site owns:
//   <script src="https://check.example/embed.js" async></script>
//   <tarnwright-check style="display:block;min-height:100vh"><a href="https://check.example/">Check a pond</a></tarnwright-check>
// The frame is from the address of this script and keeps to its own sandbox.
// It grows and shrinks with what is in it; when an enquiry has gone, the
// element says so with the event "tarnwright-sent", whose detail is the
// reference and nothing else. The link shows until the frame has spoken.
(() => {
  const home = new URL(document.currentScript.src).origin;
  // A sandbox that may run scripts as its own site is none on the same site.
  if (home === location.origin || customElements.get("tarnwright-check")) return;

  customElements.define("tarnwright-check", class extends HTMLElement {
    connectedCallback() {
      this.style.display = "block";
      this.style.minHeight = 0;
      const wide = this.clientWidth, start = this.dataset.start || "";
      const frame = this.frame = document.createElement("iframe");
      let high = wide < 600 ? 1900 : wide < 900 ? 2000 : 1600;
      let growths = 0, since = 0;
      frame.style.cssText = "display:block;width:100%;border:0;height:" + high + "px";
      frame.title = this.dataset.title || "Pond design check";
      frame.loading = "lazy";
      frame.referrerPolicy = "strict-origin";
      frame.allow = "clipboard-write; web-share; fullscreen";
      frame.sandbox = "allow-scripts allow-same-origin allow-forms allow-popups allow-popups-to-escape-sandbox allow-downloads allow-modals";
      frame.src = home + "/?" + (wide < 600 ? "at=narrow&" : "") + start;

      this.hear = (e) => {
        const said = e.data;
        if (e.source !== frame.contentWindow || e.origin !== home || !said || said.tarnwright !== 1) return;
        for (const c of this.children) if (c !== frame) c.style.display = "none";
        if (typeof said.sent === "string" && /^[A-Z0-9-]{4,16}$/.test(said.sent))
          this.dispatchEvent(new CustomEvent("tarnwright-sent", { bubbles: true, detail: said.sent }));
        const to = said.height;
        if (!(typeof to === "number" && to > 0 && to <= 2e4) || Math.abs(to - high) <= 1) return;
        if (to > high) {
          // No honest page grows so often; one that chases its own frame does.
          if (e.timeStamp - since > 2e3) { since = e.timeStamp; growths = 0; }
          if (++growths > 20) { since = Infinity; return; }
        }
        frame.style.height = (high = to) + "px";
      };
      addEventListener("message", this.hear);
      this.prepend(frame);
    }

    disconnectedCallback() {
      removeEventListener("message", this.hear);
      this.frame.remove();
    }
  });
})();
