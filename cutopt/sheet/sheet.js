(function () {
  'use strict';
  var key = document.documentElement.dataset.plan;
  var boxes = Array.prototype.slice.call(document.querySelectorAll('input[data-key]'));
  var rows = boxes.filter(function (b) { return b.dataset.pieces; });
  var figure = document.getElementById('figure');
  var bar = document.getElementById('bar');
  var next = document.getElementById('next');
  var state = {};
  try { state = JSON.parse(localStorage.getItem(key)) || {}; } catch (e) { state = {}; }

  function keep() {
    try { localStorage.setItem(key, JSON.stringify(state)); } catch (e) { /* private window: ticks last as long as the page */ }
  }
  var text = document.getElementById('text');
  function tell() {
    if (!text) { return; }
    var last = {}, open = {};
    rows.forEach(function (b) {
      var floor = b.dataset.key.replace(/-\d+$/, '');
      if (!b.checked) { open[floor] = true; }
      if (!open[floor] && !b.disabled && b.dataset.line) { last[floor] = b.dataset.line; }
    });
    text.value = text.dataset.head + Object.keys(last).map(function (floor) {
      return text.dataset.indent + last[floor] + '\n';
    }).join('');
  }
  function show() {
    tell();
    var done = 0, pieces = 0, total = 0;
    rows.forEach(function (b) {
      total += +b.dataset.pieces;
      if (b.checked) { done++; pieces += +b.dataset.pieces; }
    });
    bar.value = pieces;
    next.disabled = done === rows.length;
    figure.textContent = done === rows.length ? figure.dataset.done : figure.dataset.text
      .replace('{rows}', done).replace('{of}', rows.length)
      .replace('{pieces}', pieces).replace('{all}', total)
      .replace('{percent}', total ? Math.floor(100 * pieces / total) : 0);
  }

  boxes.forEach(function (b) {
    if (b.disabled) { return; }
    b.checked = state[b.dataset.key] === 1;
    b.addEventListener('change', function () {
      if (b.checked) { state[b.dataset.key] = 1; } else { delete state[b.dataset.key]; }
      keep();
      show();
    });
  });
  next.addEventListener('click', function () {
    var b = rows.filter(function (r) { return !r.checked; })[0];
    if (!b) { return; }
    b.closest('.step').scrollIntoView({ block: 'start' });
    b.focus({ preventScroll: true });
  });
  document.getElementById('reset').addEventListener('click', function (e) {
    if (!window.confirm(e.target.dataset.ask)) { return; }
    state = {};
    keep();
    boxes.forEach(function (b) { b.checked = b.disabled; });
    show();
  });
  var copy = document.getElementById('copy');
  if (copy) {
    var note = document.getElementById('copied');
    var hold = function () { // without leave to write the clipboard the text stands marked
      text.focus();
      text.select();
      text.setSelectionRange(0, text.value.length);
      var done = false;
      try { done = document.execCommand('copy'); } catch (e) { /* marked all the same */ }
      note.textContent = done ? copy.dataset.done : copy.dataset.held;
    };
    copy.addEventListener('click', function () {
      if (!navigator.clipboard || !navigator.clipboard.writeText) { hold(); return; }
      navigator.clipboard.writeText(text.value).then(function () { note.textContent = copy.dataset.done; }, hold);
    });
  }
  document.getElementById('progress').hidden = rows.length === 0;
  show();
})();
