// Conversion factors by mathjs, of npm. Each line of the input is one unit and another,
// parted by a blank; each line of the output is how many of the second the first is.
const { dirname, join } = require('path')
const places = { paths: [process.cwd(), join(dirname(process.execPath), '..', 'lib')] }
const { unit } = require(require.resolve('mathjs', places))

for (const line of require('fs').readFileSync(0, 'utf8').trim().split('\n')) {
  const [from, to] = line.split(' ')
  console.log(unit(1, from).toNumber(to))
}
