// The page beside the editor. It asks the server for the state of one file, shows it, and asks again when it is told that
// something was saved. All text goes in as text, never as markup.
(function () {
  'use strict';
  var $ = function (id) { return document.getElementById(id); };
  function make(tag, words, kind) {
    var made = document.createElement(tag);
    if (words) { made.textContent = words; }
    if (kind) { made.className = kind; }
    return made;
  }

  // Names in messages stand between backticks.
  function marked(text) {
    var made = document.createDocumentFragment();
    text.split('`').forEach(function (piece, at, all) {
      if (at % 2 && at < all.length - 1) { made.appendChild(make('code', piece)); } else { made.appendChild(document.createTextNode(at % 2 ? '`' + piece : piece)); }
    });
    return made;
  }
  function said(tag, text, kind) {
    var made = make(tag, '', kind);
    made.appendChild(marked(text));
    return made;
  }

  // What is shown stands in the address, so that it can be loaded again, kept and opened twice.
  var asked = { file: '', view: 'card', pieces: '', units: 'metric', ready: '', choose: [], text: '', line: '' };
  function readAddress() {
    var query = new URLSearchParams(location.search);
    ['file', 'view', 'pieces', 'units', 'ready', 'text', 'line'].forEach(function (key) {
      asked[key] = query.get(key) || (key === 'view' ? 'card' : key === 'units' ? 'metric' : '');
    });
    asked.choose = query.getAll('choose');
    if (['card', 'plan', 'text'].indexOf(asked.view) < 0) { asked.view = 'card'; }
  }
  function writeAddress(fresh) {
    var query = new URLSearchParams();
    if (asked.file) { query.set('file', asked.file); }
    if (asked.view !== 'card') { query.set('view', asked.view); }
    if (asked.pieces) { query.set('pieces', asked.pieces); }
    if (asked.units !== 'metric') { query.set('units', asked.units); }
    if (asked.ready) { query.set('ready', asked.ready); }
    if (asked.view === 'text' && asked.text) { query.set('text', asked.text); query.set('line', asked.line); }
    asked.choose.forEach(function (one) { query.append('choose', one); });
    var address = location.pathname + (query.toString() ? '?' + query : '');
    if (fresh) { history.pushState(null, '', address); } else { history.replaceState(null, '', address); }
  }
  function question(more) {
    var query = new URLSearchParams();
    query.set('file', asked.file);
    if (asked.pieces) { query.set('pieces', asked.pieces); }
    query.set('units', asked.units);
    asked.choose.forEach(function (one) { query.append('choose', one); });
    Object.keys(more || {}).forEach(function (key) { query.set(key, more[key]); });
    return query.toString();
  }

  // One sheet is seen while the next is loaded behind it, so that nothing flickers and the place on the page stays.
  var seen = null;
  var coming = null;
  function show(address, name, jump) {
    if (coming) { coming.remove(); coming = null; }
    var frame = make('iframe', '', 'coming');
    frame.title = name;
    frame.addEventListener('load', function () {
      if (frame !== coming) { return; }
      var before = seen;
      if (before && !jump && before.dataset.name === name) {
        try { frame.contentWindow.scrollTo(before.contentWindow.scrollX, before.contentWindow.scrollY); } catch (error) { /* it shows its top */ }
      }
      frame.className = '';
      if (before) { before.remove(); }
      seen = frame;
      coming = null;
      $('empty').hidden = true;
      document.body.dataset.shown = shown;
      settled();
    });
    frame.dataset.name = name;
    coming = frame;
    frame.src = address;
    $('sheets').appendChild(frame);
  }
  function clear(words) {
    if (coming) { coming.remove(); coming = null; }
    if (seen) { seen.remove(); seen = null; }
    shown = '';
    $('empty').textContent = words;
    $('empty').hidden = false;
  }

  // Of a kitchen or a larder there is no card.
  function textOnly(kind) { return kind !== 'recipe' && kind !== 'day'; }
  var shown = '';
  function showSheet(state) {
    var key;
    if (asked.view === 'text' || textOnly(state.kind)) {
      var file = asked.text || asked.file;
      var hash = asked.line ? '#L' + asked.line : '';
      key = 'text ' + file + ' ' + version;
      if (key !== shown || jumping) {
        shown = key;
        show('/source?' + new URLSearchParams({ file: file }) + hash, 'text ' + file, jumping || !seen || seen.dataset.name !== 'text ' + file);
      }
    } else if (asked.view === 'plan') {
      var more = asked.ready ? { ready: asked.ready } : {};
      key = 'plan ' + question(more) + ' ' + version;
      if (key !== shown) { shown = key; show('/plan?' + question(more), 'plan ' + asked.file, false); }
    } else if (state.card) {
      key = 'card ' + asked.file + ' ' + state.card;
      if (key !== shown) { shown = key; show('/card?' + question(), 'card ' + asked.file, false); }
    } else if (!seen || seen.dataset.name !== 'card ' + asked.file) {
      clear(state.said ? '' : 'There is no card yet: the errors above come first.');
    }
    jumping = false;
  }

  function several(count, one, many) { return count + ' ' + (count === 1 ? one : many); }
  function link(spot) {
    var to = make('a', (spot.file === asked.file ? 'line ' : spot.file + ', line ') + spot.line);
    to.href = '?' + new URLSearchParams({ file: asked.file, view: 'text', text: spot.file, line: spot.line });
    to.addEventListener('click', function (event) {
      event.preventDefault();
      asked.view = 'text';
      asked.text = spot.file;
      asked.line = String(spot.line);
      jumping = true;
      writeAddress(true);
      if (state) { draw(state); }
    });
    return to;
  }
  function showProblems(problems) {
    var open = {};
    Array.prototype.forEach.call($('found').querySelectorAll('details[open]'), function (one) { open[one.dataset.key] = true; });
    var rank = ['error', 'warning', 'advice'];
    var sorted = problems.slice().sort(function (a, b) { return rank.indexOf(a.severity) - rank.indexOf(b.severity); });
    var items = sorted.map(function (problem) {
      var item = make('li', '', problem.severity);
      item.appendChild(link(problem.at));
      item.appendChild(make('span', problem.severity + ': ', 'kind'));
      item.appendChild(marked(problem.message));
      if (problem.help) { item.appendChild(said('div', problem.help, 'help')); }
      problem.also.forEach(function (spot) {
        var also = make('div', '', 'help');
        also.appendChild(link(spot));
        also.appendChild(marked(spot.words));
        item.appendChild(also);
      });
      if (problem.why) {
        var why = make('details');
        why.dataset.key = problem.check;
        why.open = Boolean(open[problem.check]);
        why.appendChild(make('summary', 'Why? (' + problem.check + ')'));
        why.appendChild(said('p', problem.why));
        item.appendChild(why);
      }
      return item;
    });
    $('found').replaceChildren.apply($('found'), items);
    $('problems').hidden = !problems.length;
    var count = function (severity) { return problems.filter(function (one) { return one.severity === severity; }).length; };
    var words = [];
    if (count('error')) { words.push(several(count('error'), 'error', 'errors')); }
    if (count('warning')) { words.push(several(count('warning'), 'warning', 'warnings')); }
    if (count('advice')) { words.push(several(count('advice'), 'piece of advice', 'pieces of advice')); }
    $('count').textContent = words.join(', ');
  }
  function showChoices(choices) {
    if (!choices.length && state && state.problems.some(function (one) { return one.severity === 'error'; })) { return; }
    var made = choices.map(function (choice) {
      var label = make('label', choice.name + ' ');
      var select = make('select');
      choice.options.forEach(function (option) {
        var one = make('option', option);
        one.value = option;
        one.selected = option === choice.chosen;
        select.appendChild(one);
      });
      select.addEventListener('change', function () {
        asked.choose = asked.choose.filter(function (one) { return one.indexOf(choice.name + '=') !== 0; });
        asked.choose.push(choice.name + '=' + select.value);
        writeAddress(false);
        refresh();
      });
      label.appendChild(select);
      return label;
    });
    if (!$('choices').contains(document.activeElement) || document.activeElement.tagName !== 'SELECT' || $('choices').children.length !== made.length) {
      $('choices').replaceChildren.apply($('choices'), made);
    }
  }

  var state = null;
  var version = '';
  var jumping = false;
  function draw(now) {
    state = now;
    $('controls').hidden = false;
    $('title').textContent = now.title;
    $('makes').textContent = now.makes || '';
    var errors = now.problems.filter(function (one) { return one.severity === 'error'; }).length;
    document.title = (errors ? '(' + errors + ') ' : '') + now.title;
    $('said').replaceChildren(marked(now.said || ''));
    $('said').hidden = !now.said;
    $('stale').hidden = !now.stale || asked.view === 'text';
    var recipe = now.kind === 'recipe';
    $('asked').hidden = textOnly(now.kind);
    $('pieces-label').hidden = !recipe || (!now.pieces && !asked.pieces);
    if (now.pieces) { $('pieces').placeholder = now.pieces; }
    if (now.noun) { $('noun').textContent = now.noun; }
    if (document.activeElement !== $('pieces')) { $('pieces').value = asked.pieces; }
    $('units').value = asked.units;
    $('ready-label').hidden = asked.view !== 'plan' || !recipe;
    if (document.activeElement !== $('ready')) { $('ready').value = asked.ready; }
    var view = textOnly(now.kind) ? 'text' : asked.view;
    Array.prototype.forEach.call(document.querySelectorAll('[data-view]'), function (tab) {
      tab.setAttribute('aria-pressed', String(tab.dataset.view === view));
      tab.hidden = textOnly(now.kind) && tab.dataset.view !== 'text';
    });
    showChoices(now.choices);
    showProblems(now.problems);
    showSheet(now);
  }

  var latest = 0;
  // The list looks at every file of the folder: it waits until what is being looked at is there.
  var listWaits = false;
  function settled() {
    if (listWaits && !coming) { listWaits = false; refreshList(); }
  }
  function refresh() {
    if (!asked.file) { settled(); return; }
    var turn = ++latest;
    fetch('/state?' + question()).then(function (answer) {
      if (answer.ok) { return answer.json(); }
      return answer.text().then(function (words) { throw new Error(words); });
    }).then(function (now) {
      if (turn === latest) { draw(now); settled(); }
    }, function (error) {
      if (turn !== latest) { return; }
      // A file that is gone for a moment (an editor is saving) keeps its card.
      $('said').textContent = error.message;
      $('said').hidden = false;
      if (!state) { clear(''); }
      settled();
    });
  }

  var entries = [];
  function fitting() {
    var wanted = $('search').value.trim().toLowerCase().split(/\s+/);
    return entries.filter(function (entry) {
      var text = (entry.title + ' ' + entry.file).toLowerCase();
      return wanted.every(function (word) { return text.indexOf(word) >= 0; });
    });
  }
  function drawList() {
    var found = fitting();
    $('recipes').replaceChildren.apply($('recipes'), found.map(function (entry) {
      var item = make('li');
      var to = make('a');
      var name = make('span', entry.title);
      name.appendChild(make('small', entry.kind === 'recipe' ? entry.file : entry.kind + ' · ' + entry.file));
      to.appendChild(name);
      if (entry.errors) { to.appendChild(make('b', several(entry.errors, 'error', 'errors'), 'error')); }
      else if (entry.warnings) { to.appendChild(make('b', several(entry.warnings, 'warning', 'warnings'), 'warning')); }
      to.href = '?' + new URLSearchParams({ file: entry.file });
      if (entry.file === asked.file) { to.setAttribute('aria-current', 'page'); }
      to.addEventListener('click', function (event) {
        if (event.ctrlKey || event.metaKey || event.shiftKey) { return; }
        event.preventDefault();
        pick(entry.file);
      });
      item.appendChild(to);
      return item;
    }));
    $('none').hidden = found.length > 0 || !entries.length;
    document.body.classList.toggle('alone', entries.length < 2);
  }
  function pick(file) {
    asked = { file: file, view: asked.view, pieces: '', units: asked.units, ready: asked.ready, choose: [], text: '', line: '' };
    state = null;
    $('pieces').placeholder = '';
    $('noun').textContent = '';
    menu(false);
    writeAddress(true);
    drawList();
    refresh();
  }
  function refreshList() {
    fetch('/recipes').then(function (answer) { return answer.json(); }).then(function (now) {
      entries = now;
      drawList();
      if (!asked.file) {
        clear(entries.length ? 'Choose a recipe from the list.' : 'There are no recipes in this folder yet. `miche new` writes a first one.');
        // Where there is no room for both, the list comes first.
        menu(entries.length > 1);
      }
    }, function () { /* the next save asks again */ });
  }

  function menu(open) {
    document.body.classList.toggle('menu', open);
    $('menu').setAttribute('aria-expanded', String(open));
  }
  $('menu').addEventListener('click', function () {
    menu(!document.body.classList.contains('menu'));
    if (document.body.classList.contains('menu')) { $('search').focus(); }
  });
  document.addEventListener('keydown', function (event) {
    if (event.key === 'Escape' && document.body.classList.contains('menu')) { menu(false); $('menu').focus(); }
  });
  document.querySelector('main').addEventListener('pointerdown', function (event) {
    if (asked.file && event.target !== $('menu')) { menu(false); }
  });
  $('search').addEventListener('input', drawList);
  $('search').addEventListener('keydown', function (event) {
    var first = fitting()[0];
    if (event.key === 'Enter' && first) { pick(first.file); }
  });
  $('asked').addEventListener('submit', function (event) { event.preventDefault(); });
  var typing = 0;
  $('pieces').addEventListener('input', function () {
    window.clearTimeout(typing);
    typing = window.setTimeout(function () {
      asked.pieces = $('pieces').value.trim();
      writeAddress(false);
      refresh();
    }, 150);
  });
  $('units').addEventListener('change', function () { asked.units = $('units').value; writeAddress(false); refresh(); });
  $('ready').addEventListener('change', function () { asked.ready = $('ready').value; writeAddress(false); if (state) { draw(state); } });
  Array.prototype.forEach.call(document.querySelectorAll('[data-view]'), function (tab) {
    tab.addEventListener('click', function () {
      asked.view = tab.dataset.view;
      asked.text = '';
      asked.line = '';
      writeAddress(true);
      if (state) { draw(state); }
    });
  });
  window.addEventListener('popstate', function () { readAddress(); jumping = Boolean(asked.line); drawList(); refresh(); });

  // A browser holds few connections to one server: a page that nobody sees lets go of its own, and catches up when it is
  // seen again.
  var ears = null;
  function listen() {
    if (ears) { return; }
    ears = new EventSource('/events');
    ears.addEventListener('state', function (event) {
      $('live').textContent = 'follows the files';
      $('live').className = 'on';
      if (event.data === version) { return; }
      version = event.data;
      if (entries.length) { listWaits = true; } else { refreshList(); }
      refresh();
    });
    ears.addEventListener('error', function () {
      $('live').textContent = 'miche preview has ended';
      $('live').className = '';
      if (ears && ears.readyState === 2) { deafen(); window.setTimeout(attend, 1000); }
    });
  }
  function deafen() { if (ears) { ears.close(); ears = null; } }
  function attend() { if (document.visibilityState === 'visible') { listen(); } else { deafen(); } }
  document.addEventListener('visibilitychange', attend);
  window.addEventListener('pagehide', deafen);
  window.addEventListener('pageshow', attend);

  readAddress();
  attend();
}());
