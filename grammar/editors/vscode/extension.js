// Starts `miche editor` and lets the client library speak with it; nothing else is done here.
const vscode = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

function create() {
  const command = vscode.workspace.getConfiguration("miche").get("path", "miche");
  const server = { command, args: ["editor"] };
  return new LanguageClient("miche", "miche", server, {
    documentSelector: [{ language: "miche" }],
  });
}

async function start() {
  client = create();
  try {
    await client.start();
  } catch (error) {
    const said = error instanceof Error ? error.message : String(error);
    vscode.window.showErrorMessage(`miche could not be started (${said}). Install it, or set "miche.path".`);
  }
}

async function activate(context) {
  context.subscriptions.push(
    vscode.commands.registerCommand("miche.restart", async () => {
      await client?.stop();
      await start();
    }),
  );
  await start();
}

async function deactivate() {
  await client?.stop();
}

module.exports = { activate, deactivate };
