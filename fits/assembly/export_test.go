package assembly

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables
