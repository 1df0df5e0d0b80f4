// Judges binary glTF files by the rules of the standard and prints what it found as JSON, one
// report a file. usage: node validate.js FOLDER_OF_PACKAGES FILE...
"use strict";

const fs = require("fs");
const path = require("path");

const [packages, ...files] = process.argv.slice(2);
const validator = require(path.join(packages, "gltf-validator"));

async function main() {
  const reports = [];
  for (const file of files) {
    reports.push(await validator.validateBytes(new Uint8Array(fs.readFileSync(file))));
  }
  process.stdout.write(JSON.stringify(reports));
}

main().catch((error) => {
  process.stderr.write(`${error}\n`);
  process.exit(1);
});
