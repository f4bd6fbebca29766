// Starts the page's own program in a web worker, where it improves the ways of a plan while the
// page stays alive. The page names the program, because its name changes from release to release:
// `improve.js?borewright-0123456789abcdef.js`.
const script = `./${location.search.slice(1)}`;
const module_or_path = script.replace(/\.js$/, "_bg.wasm");
import(script).then((program) => program.default({ module_or_path }));
