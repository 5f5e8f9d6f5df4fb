;; The one costly step of the sentence encoder: rows of numbers in 16 bits through a matrix in 8 bits.
;; wat2wasm times.wat -o ../models/sentence-encoder/times.wasm
(module
  (memory (import "encoder" "memory") 1)

  ;; y[t][row] = (x[t] . w[row]) * scales[t] * steps[row] + bias[row], for four t at a time: `n` is a multiple of four, `columns` of eight.
  ;; 1536 products of 127 and 32767 are a quarter of what a lane holds, which sums every fourth pair.
  (func (export "times")
    (param $w i32) (param $steps i32) (param $bias i32) (param $x i32) (param $scales i32) (param $y i32)
    (param $rows i32) (param $columns i32) (param $n i32)
    (local $t i32) (local $row i32) (local $i i32) (local $at i32)
    (local $a i32) (local $b i32) (local $c i32) (local $d i32) (local $wide i32) (local $long i32)
    (local $v v128) (local $p v128) (local $q v128) (local $r v128) (local $s v128)
    (local.set $wide (i32.mul (local.get $columns) (i32.const 2)))
    (local.set $long (i32.mul (local.get $rows) (i32.const 4)))
    (loop $four
      (local.set $row (i32.const 0))
      (local.set $at (local.get $w))
      (loop $each
        (local.set $a (i32.add (local.get $x) (i32.mul (local.get $t) (local.get $wide))))
        (local.set $b (i32.add (local.get $a) (local.get $wide)))
        (local.set $c (i32.add (local.get $b) (local.get $wide)))
        (local.set $d (i32.add (local.get $c) (local.get $wide)))
        (local.set $p (v128.const i32x4 0 0 0 0))
        (local.set $q (v128.const i32x4 0 0 0 0))
        (local.set $r (v128.const i32x4 0 0 0 0))
        (local.set $s (v128.const i32x4 0 0 0 0))
        (local.set $i (local.get $columns))
        (loop $along
          (local.set $v (v128.load8x8_s (local.get $at)))
          (local.set $p (i32x4.add (local.get $p) (i32x4.dot_i16x8_s (local.get $v) (v128.load (local.get $a)))))
          (local.set $q (i32x4.add (local.get $q) (i32x4.dot_i16x8_s (local.get $v) (v128.load (local.get $b)))))
          (local.set $r (i32x4.add (local.get $r) (i32x4.dot_i16x8_s (local.get $v) (v128.load (local.get $c)))))
          (local.set $s (i32x4.add (local.get $s) (i32x4.dot_i16x8_s (local.get $v) (v128.load (local.get $d)))))
          (local.set $at (i32.add (local.get $at) (i32.const 8)))
          (local.set $a (i32.add (local.get $a) (i32.const 16)))
          (local.set $b (i32.add (local.get $b) (i32.const 16)))
          (local.set $c (i32.add (local.get $c) (i32.const 16)))
          (local.set $d (i32.add (local.get $d) (i32.const 16)))
          (br_if $along (local.tee $i (i32.sub (local.get $i) (i32.const 8)))))
        ;; four sums of four lanes beside each other; as floats, for a whole sum may be too long for 32 bits
        (local.set $p (f32x4.convert_i32x4_s (local.get $p)))
        (local.set $q (f32x4.convert_i32x4_s (local.get $q)))
        (local.set $r (f32x4.convert_i32x4_s (local.get $r)))
        (local.set $s (f32x4.convert_i32x4_s (local.get $s)))
        (local.set $p (f32x4.add
          (i8x16.shuffle 0 1 2 3 16 17 18 19 8 9 10 11 24 25 26 27 (local.get $p) (local.get $q))
          (i8x16.shuffle 4 5 6 7 20 21 22 23 12 13 14 15 28 29 30 31 (local.get $p) (local.get $q))))
        (local.set $r (f32x4.add
          (i8x16.shuffle 0 1 2 3 16 17 18 19 8 9 10 11 24 25 26 27 (local.get $r) (local.get $s))
          (i8x16.shuffle 4 5 6 7 20 21 22 23 12 13 14 15 28 29 30 31 (local.get $r) (local.get $s))))
        (local.set $v (f32x4.add
          (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (local.get $p) (local.get $r))
          (i8x16.shuffle 8 9 10 11 12 13 14 15 24 25 26 27 28 29 30 31 (local.get $p) (local.get $r))))
        (local.set $v (f32x4.add
          (f32x4.mul
            (f32x4.mul (local.get $v) (v128.load (i32.add (local.get $scales) (i32.mul (local.get $t) (i32.const 4)))))
            (v128.load32_splat (i32.add (local.get $steps) (i32.mul (local.get $row) (i32.const 4)))))
          (v128.load32_splat (i32.add (local.get $bias) (i32.mul (local.get $row) (i32.const 4))))))
        (local.set $i (i32.add (local.get $y)
          (i32.add (i32.mul (local.get $t) (local.get $long)) (i32.mul (local.get $row) (i32.const 4)))))
        (v128.store32_lane 0 (local.get $i) (local.get $v))
        (v128.store32_lane 1 (local.tee $i (i32.add (local.get $i) (local.get $long))) (local.get $v))
        (v128.store32_lane 2 (local.tee $i (i32.add (local.get $i) (local.get $long))) (local.get $v))
        (v128.store32_lane 3 (i32.add (local.get $i) (local.get $long)) (local.get $v))
        (br_if $each (i32.lt_u (local.tee $row (i32.add (local.get $row) (i32.const 1))) (local.get $rows))))
      (br_if $four (i32.lt_u (local.tee $t (i32.add (local.get $t) (i32.const 4))) (local.get $n))))))
