// Bundles the program of the page into one file that Python puts into every report.
import { build } from "esbuild";

await build({
  entryPoints: ["src/main.ts"],
  bundle: true,
  minify: true,
  format: "iife",
  target: "es2022",
  charset: "ascii",
  legalComments: "inline",
  banner: { js: "/* Built from viewer/page/src; do not edit. Holds three.js, MIT licence: see THREE-LICENSE. */" },
  outfile: "bundle.js",
});
