// Starts the built extension without an editor: in place of the editor's own module stands one that says nothing.
// Arguments: the extension, the program. The client library starts the program and agrees with it on what it can do.
const Module = require("node:module");
const [extension, program] = process.argv.slice(2);

// Any class, function, event or list that is asked for.
function nothing(name) {
  const made = function () {};
  return new Proxy(made, {
    get(target, key) {
      if (key === Symbol.toPrimitive) return () => 0;
      if (key === Symbol.iterator) return [][Symbol.iterator].bind([]);
      if (key === "then") return undefined;
      if (key === "prototype") return target.prototype;
      if (key in target) return target[key];
      return (target[key] = nothing(`${name}.${String(key)}`));
    },
    construct: () => ({ dispose() {} }),
    apply: () => ({ dispose() {} }),
  });
}

class EventEmitter {
  constructor() {
    this.listeners = [];
    this.event = (listener) => {
      this.listeners.push(listener);
      return { dispose() {} };
    };
  }
  fire(value) {
    for (const listener of this.listeners) listener(value);
  }
  dispose() {}
}

const complaints = [];
const vscode = nothing("vscode");
Object.assign(vscode, {
  EventEmitter,
  version: "1.91.0",
  env: { appName: "test", language: "en" },
});
vscode.workspace.getConfiguration = () => ({ get: (key, usual) => (key === "path" ? program : usual), inspect: () => undefined });
vscode.workspace.workspaceFolders = undefined;
vscode.workspace.textDocuments = [];
vscode.workspace.notebookDocuments = [];
vscode.window.visibleTextEditors = [];
vscode.window.tabGroups = { all: [], onDidChangeTabs: () => ({ dispose() {} }), onDidChangeTabGroups: () => ({ dispose() {} }) };
vscode.window.showErrorMessage = async (words) => complaints.push(words);
vscode.window.createOutputChannel = () => ({
  logLevel: 3,
  onDidChangeLogLevel: new EventEmitter().event,
  append() {},
  appendLine() {},
  trace() {},
  debug() {},
  info() {},
  warn: (words) => complaints.push(words),
  error: (words) => complaints.push(words),
  show() {},
  dispose() {},
});
vscode.commands.registerCommand = () => ({ dispose() {} });

const load = Module._load;
Module._load = (request, ...rest) => (request === "vscode" ? vscode : load(request, ...rest));

const { activate, deactivate } = require(extension);
activate({ subscriptions: [] })
  .then(() => deactivate())
  .then(() => {
    if (complaints.length > 0) throw new Error(complaints.join("\n"));
    console.log("started and ended");
    process.exit(0);
  })
  .catch((error) => {
    console.error(error, complaints.join("\n"));
    process.exit(1);
  });
