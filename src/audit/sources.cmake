# The reviewer's sheet: fingerprints of the inputs, evidence, the hold point.
bw_folder(audit
  SOURCES air_test.c as_built.c audit.c evidence.c fingerprint.c forecast.c
          hold_point.c hold_readings.c house.c needs.c open.c readings.c verify.c when.c
  USES base material assembly criterion criteria margin)
