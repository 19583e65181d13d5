// Puts the extension and the client library into one file, and the grammar beside it. Run with `npm run build`.
import { build } from "esbuild";
import { copyFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));

await build({
  absWorkingDir: here,
  entryPoints: ["extension.js"],
  outfile: "dist/extension.js",
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  // The editor brings this one.
  external: ["vscode"],
});
copyFileSync(join(here, "..", "miche.tmLanguage.json"), join(here, "miche.tmLanguage.json"));
