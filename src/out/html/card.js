// Everything here is a help on top of a card that is whole without it: ticks that are remembered,
// a screen that stays on, timers that count down. It reads and writes nothing but this page's own storage.
(function () {
  'use strict';
  var memory;
  try { memory = window.localStorage; memory.getItem('miche'); } catch (error) { memory = null; }
  function keep(key, value) {
    try { if (value) { memory.setItem(key, '1'); } else { memory.removeItem(key); } } catch (error) { /* full or forbidden: ticks last until the page is closed */ }
  }
  function button(words) {
    var made = document.createElement('button');
    made.type = 'button';
    made.textContent = words;
    return made;
  }

  var boxes = [];
  document.querySelectorAll('.card').forEach(function (card) {
    [['.strip input', ':'], ['.step input', ':step']].forEach(function (kind) {
      card.querySelectorAll(kind[0]).forEach(function (box, at) {
        var key = 'miche:' + card.dataset.key + kind[1] + at;
        boxes.push([box, key]);
        if (memory && memory.getItem(key)) { box.checked = true; }
        box.addEventListener('change', function () { if (memory) { keep(key, box.checked); } });
      });
    });
  });

  var tools = document.createElement('div');
  tools.className = 'tools';
  tools.setAttribute('role', 'group');
  tools.setAttribute('aria-label', 'At the bench');
  if (boxes.length) {
    var clear = button('Clear the ticks');
    clear.addEventListener('click', function () {
      boxes.forEach(function (pair) { pair[0].checked = false; if (memory) { keep(pair[1], false); } });
    });
    tools.appendChild(clear);
  }
  if ('wakeLock' in navigator) {
    var lock = null;
    var wanted = false;
    var awake = button('Keep the screen on');
    awake.setAttribute('aria-pressed', 'false');
    var shown = function () { awake.setAttribute('aria-pressed', wanted ? 'true' : 'false'); };
    var hold = function () {
      navigator.wakeLock.request('screen').then(function (got) { lock = got; shown(); }, function () { wanted = false; shown(); });
    };
    awake.addEventListener('click', function () {
      wanted = !wanted;
      if (wanted) { hold(); } else if (lock) { lock.release(); lock = null; }
      shown();
    });
    // The system lets go of the lock when the page is hidden.
    document.addEventListener('visibilitychange', function () {
      if (wanted && document.visibilityState === 'visible') { hold(); }
    });
    tools.appendChild(awake);
  }
  var main = document.querySelector('main');
  if (tools.childNodes.length && main) { main.insertBefore(tools, main.firstChild); }

  function clock(seconds) {
    var left = Math.max(0, Math.ceil(seconds));
    var two = function (number) { return (number < 10 ? '0' : '') + number; };
    var hours = Math.floor(left / 3600);
    var minutes = Math.floor(left / 60) % 60;
    return (hours ? hours + ':' + two(minutes) : String(minutes)) + ':' + two(left % 60);
  }
  var sound = null;
  function bell() {
    try {
      sound = sound || new window.AudioContext();
      [0, 0.4, 0.8].forEach(function (at) {
        var tone = sound.createOscillator();
        var volume = sound.createGain();
        tone.frequency.value = 880;
        volume.gain.value = 0.3;
        tone.connect(volume);
        volume.connect(sound.destination);
        tone.start(sound.currentTime + at);
        tone.stop(sound.currentTime + at + 0.25);
      });
    } catch (error) { /* without sound the button still says so */ }
    if (navigator.vibrate) { navigator.vibrate([300, 150, 300]); }
  }
  document.querySelectorAll('.time time[data-seconds]').forEach(function (time) {
    var length = Number(time.dataset.seconds);
    var name = time.dataset.step;
    var face = button('Start');
    face.className = 'timer';
    face.setAttribute('aria-label', 'Start a timer for ' + name);
    var ends = 0;
    var ticking = 0;
    var rest = function (words) {
      window.clearInterval(ticking);
      ticking = 0;
      face.classList.remove('runs');
      face.textContent = words;
    };
    var look = function () {
      var left = (ends - Date.now()) / 1000;
      if (left > 0) { face.textContent = clock(left); return; }
      rest('Time!');
      face.classList.add('over');
      face.setAttribute('aria-label', 'Time is up for ' + name + '; press to put the timer back');
      bell();
    };
    face.addEventListener('click', function () {
      if (face.classList.contains('over') || ticking) {
        rest('Start');
        face.classList.remove('over');
        face.setAttribute('aria-label', 'Start a timer for ' + name);
        return;
      }
      // A press is the moment at which a browser lets a page make sound later.
      try { sound = sound || new window.AudioContext(); sound.resume(); } catch (error) { sound = null; }
      ends = Date.now() + length * 1000;
      face.classList.add('runs');
      face.setAttribute('aria-label', 'Timer for ' + name + ' runs; press to stop it');
      ticking = window.setInterval(look, 250);
      look();
    });
    time.parentNode.parentNode.appendChild(face);
  });
}());
