package holding

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables
