#!/bin/sh
# --profile: a shipped rule set by its name, any by its file, and their list.
#   usage: cli_profiles.sh PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

shipped=$source/assemblies/profiles
cat >own.xml <<'XML'
<profile xmlns="urn:bothways:profile:1" id="own" country="Nowhere">
  <rule criterion="inner-sd" least="100 m" decides="yes"
      source="Code of nowhere" edition="2031" mark="S">a foil inside</rule>
  <rule criterion="mould-index-room" below="0.5" decides="yes"
      source="Code of nowhere" edition="2031" mark="S">hardly any mould</rule>
</profile>
XML

# --- by name ------------------------------------------------------------------
run 2 check "$wall" --profile atlantis
says err "--profile 'atlantis' is not known; --profile list shows them"
empty out
run 2 check "$wall" --profile uk-nbhc
says err 'did you mean uk-nhbc?'
for verb in check margin audit; do
    run 2 $verb "$wall" --profile atlantis
done
run 2 compare "$wall" "$wall" --profile atlantis
run_any check "$wall" --monthly-only --format csv
mv out plain
run_any check "$wall" --monthly-only --format csv --profile default
cmp out plain || fail 'the default rule set changes something'
run_any check "$wall" --monthly-only --profile dk
tr -s '\n ' ' ' <out >words # a long path wraps
says words 'set: dk'
run_any check "$wall" --monthly-only --profile dk --full
says out 'Rule set dk'
says out 'Danish rule as published'

# --- the same by its file -------------------------------------------------------
for name in dk de-din4108 uk-nhbc; do
    run_any check "$wall" --monthly-only --format csv --profile "$name"
    mv out by-name
    run_any check "$wall" --monthly-only --format csv \
        --profile "$shipped/$name.xml"
    cmp out by-name || fail "$name: another result by its file"
done

# --- one's own --------------------------------------------------------------------
cp own.xml own # a name with a slash is a path, too
for file in own.xml ./own; do
    run 1 check "$wall" --monthly-only --profile $file --format csv
    says out 'inner-sd,rule'
    says out 'Code of nowhere (edition 2031): a foil inside [S]'
done
run 2 check "$wall" --profile own
says err "--profile 'own' is not known"
run 2 check "$wall" --profile missing.xml
says err 'missing.xml: cannot open this rule set file'
run 2 check "$wall" --profile ./assemblies
says err 'this is a directory; give one rule set file'
run 2 check "$wall" --profile "$wall"
says err 'is not what this kind of file (rule set) starts with'
sed 's/inner-sd/inner-ds/' own.xml >slip.xml
run 2 check "$wall" --profile slip.xml
says err 'bothways: slip.xml:3: <rule> criterion="inner-ds"'
says err 'did you mean inner-sd?'
sed 's/below="0.5"/below="1.5"/' own.xml >loose.xml
run 2 check "$wall" --profile loose.xml
says err 'is looser than the default limit, below="1"'

# what is read is not written over
cp own.xml before
run 2 check "$wall" --monthly-only --profile own.xml --output own.xml
says err 'this file is read and would be replaced'
cmp own.xml before || fail 'the rule set was written over'

# --- audit --------------------------------------------------------------------------
run_any audit "$wall" --monthly-only --profile own.xml --format csv
says out ',identity,profile,own,,,Nowhere'
says out ',file,own.xml,'
if command -v sha256sum >tool; then
    says out "$(sha256sum own.xml | cut -c1-64)"
fi

# --- the list -------------------------------------------------------------------------
run 0 check --profile list
for file in "$shipped"/*.xml; do
    name=$(basename "$file" .xml)
    grep -q "^$name - " out || fail "$name is not listed"
    grep -q "^  (.*/assemblies/profiles/$name.xml)" out ||
        fail "where $name is from is not said"
done
says out 'default - the criteria of docs/methods.md alone'
says out 'NHBC Standards, 6.2.12 (edition 2024) [S]'
says out 'method period, decides:'
says out '  condensate-absorbing, at most 1 kg/m2: Most condensate at one time'
says out '  drying-reserve, at least 0.1 kg/(m2 a) (walls and floors), 0.25 (roofs):'
says out '  run-off, at most 0.2 kg/m2, decides nothing: '
silent_about out '  inner-sd, at least the'
run 0 check --profile own.xml --profile list
says out 'own - Nowhere'
says out '  (own.xml)'
says out 'Code of nowhere (edition 2031) [S]'
silent_about out 'uk-nhbc'
silent_about out 'annual-balance'
run 2 check --profile slip.xml --profile list
says err 'slip.xml:3:'
empty out

# --- where the shipped ones are ---------------------------------------------------------
mkdir -p data/assemblies/profiles
ln -s "$source/materials" data/materials
cp own.xml data/assemblies/profiles
BOTHWAYS_DATA=data "$program" check --profile list >out 2>err ||
    fail 'BOTHWAYS_DATA was not taken'
says out '(data/assemblies/profiles/own.xml)'
silent_about out 'uk-nhbc'
rm -r data/assemblies
BOTHWAYS_DATA=data "$program" check "$wall" --profile own >out 2>err
[ $? -eq 2 ] || fail 'rule sets were found where none are'
says err "BOTHWAYS_DATA is 'data', which has no folder 'assemblies/profiles'"
BOTHWAYS_DATA=data "$program" check "$wall" --monthly-only >out 2>err
[ $? -ne 2 ] || fail 'rule sets are asked for without --profile'
finish
