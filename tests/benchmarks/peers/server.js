/* PouchDB's own server on disk, and the page of the peers: `node server.js PACKAGES DATA`. */
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';

const [packages, data] = process.argv.slice(2);
const require = createRequire(`${packages}/`);
const express = require('express');
const PouchDB = require('pouchdb').defaults({ prefix: `${data}/` });

const app = express();
app.use('/packages', express.static(`${packages}/node_modules`, { extensions: ['js'] }));
app.use('/page', express.static(dirname(fileURLToPath(import.meta.url))));
app.use('/updates', express.static(data));
// what the server logs and how it is set up lies beside its data
app.use(
  '/db',
  require('express-pouchdb')(PouchDB, {
    mode: 'minimumForPouchDB',
    overrideMode: { exclude: [] },
    logPath: `${data}/log.txt`,
    configPath: `${data}/config.json`,
  }),
);
const server = app.listen(0, '127.0.0.1', () => console.log(server.address().port));
