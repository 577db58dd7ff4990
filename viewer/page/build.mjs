// Bundles the programs of the pages, each into one file that Python puts into every page of its kind.
import { build } from "esbuild";

const built = "Built from viewer/page/src; do not edit.";
for (const [source, bundle, banner] of [
  ["src/main.ts", "bundle.js", `${built} Holds three.js, MIT licence: see THREE-LICENSE.`],
  ["src/sweep/main.ts", "sweep.js", built],
  ["src/pattern/main.ts", "pattern.js", built],
]) {
  await build({
    entryPoints: [source],
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2022",
    charset: "ascii",
    legalComments: "inline",
    banner: { js: `/* ${banner} */` },
    outfile: bundle,
  });
}
