// Colours files by the TextMate grammar, with the library that Visual Studio Code uses.
// Arguments: the folder of node modules, the grammar, the files. Prints [[[start, end, [scope, …]], …] for each line, …]
// for each file; columns in UTF-16 units.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const [modules, grammarPath, ...files] = process.argv.slice(2);
const require = createRequire(join(modules, "x.js"));
const textmate = require("vscode-textmate");
const oniguruma = require("vscode-oniguruma");

await oniguruma.loadWASM(readFileSync(join(modules, "vscode-oniguruma/release/onig.wasm")).buffer);
const registry = new textmate.Registry({
  onigLib: Promise.resolve({
    createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text) => new oniguruma.OnigString(text),
  }),
  loadGrammar: async () => textmate.parseRawGrammar(readFileSync(grammarPath, "utf8"), grammarPath),
});
const grammar = await registry.loadGrammar("source.miche");
const result = files.map((file) => {
  let state = textmate.INITIAL;
  return readFileSync(file, "utf8").split(/\r?\n/).map((line) => {
    const coloured = grammar.tokenizeLine(line, state);
    state = coloured.ruleStack;
    return coloured.tokens.map((token) => [token.startIndex, token.endIndex, token.scopes]);
  });
});
console.log(JSON.stringify(result));
