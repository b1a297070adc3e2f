// Keeps the page in step with the tree that the widget makes. The page that
// the server wrote is taken over as it stands, so nothing that a person typed,
// chose or scrolled to is lost; from then on only what changes is touched.
(function () {
  "use strict";
  var nodes = new Map(); // by number; each node knows its own

  function walk(node, f) {
    f(node);
    for (var k = node.firstChild; k; k = k.nextSibling) walk(k, f);
  }
  function number(node, first) {
    walk(node, function (n) { n.twNumber = first; nodes.set(first++, n); });
    return first;
  }
  function drop(node) {
    walk(node, function (n) { nodes.delete(n.twNumber); });
    node.remove();
  }

  // What a person has made of a control or a fold is theirs.
  function personal(e, name) {
    return name === "checked" || (name === "open" && e.nodeName === "DETAILS") ||
      (name === "value" && /^(INPUT|TEXTAREA|SELECT)$/.test(e.nodeName) && !/^(radio|checkbox|hidden)$/.test(e.type));
  }
  function first(e) { return (e.getAttribute("class") || "").split(" ")[0]; }
  function alike(a, b) {
    return a.nodeName === b.nodeName && (a.nodeType !== 1 || (a.id || b.id ? a.id === b.id : first(a) === first(b)));
  }

  // align makes a into b, and keeps of it what it can.
  function align(a, b) {
    if (a.nodeType !== 1) {
      if (a.data !== b.data) a.data = b.data;
      return;
    }
    [].slice.call(b.attributes).forEach(function (x) {
      if (a.getAttribute(x.name) !== x.value && !personal(a, x.name)) a.setAttribute(x.name, x.value);
    });
    [].slice.call(a.attributes).forEach(function (x) {
      if (!b.hasAttribute(x.name) && !personal(a, x.name)) a.removeAttribute(x.name);
    });
    var old = a.firstChild, to = b.firstChild;
    while (to) {
      var next = to.nextSibling, at = old;
      while (at && !alike(at, to)) at = at.nextSibling;
      if (!at) a.insertBefore(to, old);
      else {
        while (old !== at) {
          var gone = old;
          old = old.nextSibling;
          gone.remove();
        }
        align(old, to);
        old = old.nextSibling;
      }
      to = next;
    }
    while (old) {
      var rest = old.nextSibling;
      old.remove();
      old = rest;
    }
  }

  function kids(parent, before, gone, from, markup) {
    if (gone) gone.split(",").forEach(function (n) { drop(nodes.get(+n)); });
    if (!markup) return;
    var box = parent.cloneNode(false);
    box.innerHTML = markup;
    while (box.firstChild) {
      from = number(box.firstChild, from);
      parent.insertBefore(box.firstChild, before);
    }
  }

  window.tarnwrightPatch = {
    // take makes the element with an id what the markup says, numbers it all
    // and returns how many nodes there are.
    take: function (id, markup) {
      var box = document.createElement("template"), root = document.getElementById(id);
      box.innerHTML = markup;
      align(root, box.content.firstElementChild);
      nodes.clear();
      return number(root, 1) - 1;
    },
    // follow takes the steps of a change, one word after the other. It returns
    // false when the page is not what it was left as.
    follow: function (steps) {
      var w = steps.split("\0"), i = 0, e;
      try {
        while (i < w.length - 1) {
          switch (w[i]) {
          case "a": nodes.get(+w[i + 1]).setAttribute(w[i + 2], w[i + 3]); i += 4; break;
          case "r": nodes.get(+w[i + 1]).removeAttribute(w[i + 2]); i += 3; break;
          case "t": nodes.get(+w[i + 1]).data = w[i + 2]; i += 3; break;
          case "k": kids(nodes.get(+w[i + 1]), nodes.get(+w[i + 2]) || null, w[i + 3], +w[i + 4], w[i + 5]); i += 6; break;
          case "v": e = document.getElementById(w[i + 1]); if (e && e.value !== w[i + 2]) e.value = w[i + 2]; i += 3; break;
          case "c": e = document.getElementById(w[i + 1]); if (e && e.checked !== (w[i + 2] === "1")) e.checked = !e.checked; i += 3; break;
          default: return false;
          }
        }
      } catch (moved) {
        return false;
      }
      return true;
    }
  };
})();
