// Starts the page's own program in a web worker, where it works a plan out while the page stays alive.
// The page names the program, because its name changes from release to release:
// `improve.js?borewright-0123456789abcdef.js`. A fault that nobody waits for is told to the page like any
// other, so that it does not wait for an answer that never comes.
addEventListener("unhandledrejection", (event) => reportError(event.reason));
const script = `./${location.search.slice(1)}`;
const module_or_path = script.replace(/\.js$/, "_bg.wasm");
import(script).then((program) => program.default({ module_or_path }));
