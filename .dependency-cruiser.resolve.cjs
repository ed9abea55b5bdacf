/** Where Kit's own names lead, for the dependency rules. */
module.exports = { resolve: { alias: { $lib: require('node:path').join(__dirname, 'src/lib') } } };
