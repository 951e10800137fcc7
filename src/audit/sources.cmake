# The reviewer's sheet: fingerprints of the inputs, evidence, the hold point.
bw_folder(audit
  SOURCES audit.c evidence.c fingerprint.c hold_point.c readings.c sha256.c
  USES base material assembly)
