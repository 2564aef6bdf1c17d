import { wrongClick, recoveredShares } from '../bench/capture-bench';
const [kind, a, b, c] = process.argv.slice(2);
if (kind === 'wrong') console.log(a, JSON.stringify(wrongClick(Number(b), Number(a), Number(c))));
else console.log(JSON.stringify(recoveredShares(Number(a), Number(b))));
