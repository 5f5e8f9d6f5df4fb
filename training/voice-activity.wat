;; The one costly step of the voice-activity model: a matrix by a column of numbers, both 32-bit floats.
;; wat2wasm voice-activity.wat -o ../models/voice-activity/times.wasm
(module
  (memory (import "silero" "memory") 1)

  ;; y[row] = max(least, w[row] . x + bias[row]); `rows` and `columns` are multiples of four. Four rows go side by side.
  (func (export "times")
    (param $w i32) (param $bias i32) (param $x i32) (param $y i32) (param $rows i32) (param $columns i32) (param $least f32)
    (local $long i32) (local $a i32) (local $b i32) (local $c i32) (local $d i32) (local $at i32) (local $i i32)
    (local $v v128) (local $p v128) (local $q v128) (local $r v128) (local $s v128)
    (local.set $long (i32.mul (local.get $columns) (i32.const 4)))
    (local.set $a (local.get $w))
    (loop $four
      (local.set $b (i32.add (local.get $a) (local.get $long)))
      (local.set $c (i32.add (local.get $b) (local.get $long)))
      (local.set $d (i32.add (local.get $c) (local.get $long)))
      (local.set $at (local.get $x))
      (local.set $p (v128.const i32x4 0 0 0 0))
      (local.set $q (v128.const i32x4 0 0 0 0))
      (local.set $r (v128.const i32x4 0 0 0 0))
      (local.set $s (v128.const i32x4 0 0 0 0))
      (local.set $i (local.get $columns))
      (loop $along
        (local.set $v (v128.load (local.get $at)))
        (local.set $p (f32x4.add (local.get $p) (f32x4.mul (local.get $v) (v128.load (local.get $a)))))
        (local.set $q (f32x4.add (local.get $q) (f32x4.mul (local.get $v) (v128.load (local.get $b)))))
        (local.set $r (f32x4.add (local.get $r) (f32x4.mul (local.get $v) (v128.load (local.get $c)))))
        (local.set $s (f32x4.add (local.get $s) (f32x4.mul (local.get $v) (v128.load (local.get $d)))))
        (local.set $at (i32.add (local.get $at) (i32.const 16)))
        (local.set $a (i32.add (local.get $a) (i32.const 16)))
        (local.set $b (i32.add (local.get $b) (i32.const 16)))
        (local.set $c (i32.add (local.get $c) (i32.const 16)))
        (local.set $d (i32.add (local.get $d) (i32.const 16)))
        (br_if $along (local.tee $i (i32.sub (local.get $i) (i32.const 4)))))
      ;; four sums of four lanes beside each other
      (local.set $p (f32x4.add
        (i8x16.shuffle 0 1 2 3 16 17 18 19 8 9 10 11 24 25 26 27 (local.get $p) (local.get $q))
        (i8x16.shuffle 4 5 6 7 20 21 22 23 12 13 14 15 28 29 30 31 (local.get $p) (local.get $q))))
      (local.set $r (f32x4.add
        (i8x16.shuffle 0 1 2 3 16 17 18 19 8 9 10 11 24 25 26 27 (local.get $r) (local.get $s))
        (i8x16.shuffle 4 5 6 7 20 21 22 23 12 13 14 15 28 29 30 31 (local.get $r) (local.get $s))))
      (v128.store (local.get $y) (f32x4.max (f32x4.splat (local.get $least))
        (f32x4.add (v128.load (local.get $bias)) (f32x4.add
          (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (local.get $p) (local.get $r))
          (i8x16.shuffle 8 9 10 11 12 13 14 15 24 25 26 27 28 29 30 31 (local.get $p) (local.get $r))))))
      (local.set $y (i32.add (local.get $y) (i32.const 16)))
      (local.set $bias (i32.add (local.get $bias) (i32.const 16)))
      ;; the fourth row has ended where the next begins
      (local.set $a (local.get $d))
      (br_if $four (local.tee $rows (i32.sub (local.get $rows) (i32.const 4)))))))
