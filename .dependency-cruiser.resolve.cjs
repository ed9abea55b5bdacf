/** Where Kit's own names lead, for the dependency rules. */
module.exports = { resolve: { alias: { $lib: `${__dirname}/src/lib` } } };
