// Checks a GLB file with the Khronos group's validator (npm: gltf-validator, installed in the working folder): one line
// "errors warnings infos hints", then the messages.
const { validateBytes } = require(process.cwd() + '/node_modules/gltf-validator');
const bytes = new Uint8Array(require('fs').readFileSync(process.argv[2]));
validateBytes(bytes).then((report) => {
    const { numErrors, numWarnings, numInfos, numHints, messages } = report.issues;
    console.log(numErrors, numWarnings, numInfos, numHints);
    for (const message of messages) console.log(message.code, message.message, message.pointer || message.offset);
});
