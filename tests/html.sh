#!/bin/sh
# Pages in a validator and in a browser: no fault, nothing wider than the
# screen or the sheet, no word on the console. What is not installed is
# skipped aloud. usage: html.sh COMMAND PROJECT-FOLDER
# The validator is npm's html-validate, the browser Debian's chromium, what asks
# for access (contrast, headings, names) npm's axe-core;
# BOTHWAYS_HTML_VALIDATE, BOTHWAYS_CHROMIUM and BOTHWAYS_AXE name others.
set -eu

command=$1
root=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
failed=0
fail() {
    echo "FAILED: $*"
    failed=$((failed + 1))
}

# --- pages --------------------------------------------------------------------
# A path, a title and a layer without a blank, longer than a phone is wide.
long=namefarlongerthanthescreenofaphoneiswideandevenasheetofpaper
walls=$work/$long
cp -r "$root/assemblies" "$walls"
sed -e "s/title=\"[^\"]*\"/title=\"$long\"/" \
    -e "s/id=\"brick\"/& name=\"$long$long$long$long$long\"/" \
    "$walls/estuary-fibre.xml" >"$walls/unbroken.xml"
grep -q "$long" "$walls/unbroken.xml"
make_page() { # make_page NAME VERB ARGUMENT...: verdicts are not judged here
    name=$1
    shift
    status=0
    "$command" "$@" --format html --output "$name.html" || status=$?
    case $status in
    0 | 1 | 4) ;;
    *) fail "$* ended with $status" ;;
    esac
    [ -s "$name.html" ] || { fail "$name.html is empty" && return; }
    size=$(wc -c <"$name.html")
    [ "$size" -lt 450000 ] || fail "$name.html takes $size bytes"
}
make_page foil check "$walls/estuary-mineral-foil.xml" --monthly-only
make_page variable check "$walls/estuary-mineral-variable.xml" --monthly-only
make_page tight check "$walls/upland-tight-outside.xml" --monthly-only
make_page hours check "$walls/upland-masonry-inside.xml"
make_page fibre check "$walls/estuary-fibre.xml"
make_page compare compare "$walls/estuary-fibre.xml" \
    "$walls/estuary-mineral-variable.xml" --monthly-only --as-drawn
make_page margin margin "$walls/upland-tight-outside.xml" --monthly-only \
    --ensemble 50
make_page audit audit "$walls/estuary-fibre.xml" --monthly-only
make_page unbroken check "$walls/unbroken.xml" --monthly-only
make_page unbroken-audit audit "$walls/unbroken.xml" --monthly-only
make_page unbroken-margin margin "$walls/unbroken.xml" --monthly-only
make_page unbroken-compare compare "$walls/unbroken.xml" \
    "$walls/estuary-mineral-variable.xml" --monthly-only --as-drawn
pages='foil variable tight hours fibre compare margin audit
    unbroken unbroken-audit unbroken-margin unbroken-compare'

# --- validator ----------------------------------------------------------------
# The usual build makes the same pages; what reads them is no program of ours.
if [ -n "${BOTHWAYS_SANITIZED:-}" ]; then
    echo 'left to the usual build: validator, browser, axe, print'
    exit $((failed > 0))
fi
validator=${BOTHWAYS_HTML_VALIDATE:-}
for place in "$root/build/npm/node_modules/.bin/html-validate" \
    "$(command -v html-validate || true)"; do
    if [ -z "$validator" ] && [ -x "$place" ]; then
        validator=$place
    fi
done
if [ -n "$validator" ]; then
    # The standard's rules; those of taste are not asked.
    echo '{"extends": ["html-validate:standard"], "root": true}' \
        >.htmlvalidate.json
    files=
    for page in $pages; do
        files="$files $page.html"
    done
    # shellcheck disable=SC2086
    "$validator" $files >validator.txt 2>&1 ||
        { fail 'a page is not valid' && cat validator.txt; }
    echo "validated: $pages"
else
    echo 'skipped: html-validate is not installed'
fi

# --- browser ------------------------------------------------------------------
browser=${BOTHWAYS_CHROMIUM:-$(command -v chromium || true)}
if [ -z "$browser" ]; then
    echo 'skipped: chromium is not installed'
    exit $((failed > 0))
fi
run_browser() {
    timeout 120 "$browser" --headless --no-sandbox --disable-gpu \
        --disable-quic --no-first-run --disable-background-networking \
        --disable-component-update --disable-sync \
        --user-data-dir="$work/profile" "$@"
}

# Every page in a frame of each width, which it has however wide the window is:
# desktop, phone, and what the margins leave of A4 at 96 dots an inch.
{
    echo '<!DOCTYPE html><title>frames</title><body>'
    for page in $pages; do
        for width in 1280 390 680; do
            echo "<iframe src='$page.html' data-name='$page at $width'" \
                "style='width:${width}px;height:900px;border:0'></iframe>"
        done
    done
    cat <<'END'
<pre></pre><script>onload = function () {
    var said = '';
    document.querySelectorAll('iframe').forEach(function (frame) {
        var page = frame.contentDocument, root = page.documentElement;
        page.querySelectorAll('details').forEach(function (d) {
            d.open = true;
        });
        var out = 0, width = frame.clientWidth;
        page.querySelectorAll('svg text').forEach(function (text) {
            var box = text.getBoundingClientRect();
            if (box.right > width + 1 || box.left < -1) out++;
        });
        var fits = root.scrollWidth <= width && out == 0;
        said += frame.dataset.name + (fits ? ' fits\n' : ' is ' +
            root.scrollWidth + ' wide, ' + out + ' texts outside\n');
    });
    document.querySelector('pre').textContent = said + 'all measured';
};</script>
END
} >frames.html
run_browser --allow-file-access-from-files --enable-logging=stderr \
    --hide-scrollbars --dump-dom "file://$work/frames.html" >dom.txt \
    2>log.txt || fail 'the browser ended'
grep -q '^all measured' dom.txt || fail 'the browser measured nothing'
fits=$(grep -c ' fits$' dom.txt || true)
[ "$fits" -eq 36 ] || { fail 'a page does not fit' && grep ' wide, ' dom.txt; }
! grep CONSOLE log.txt || fail 'a page speaks on the console'

# What a person misses who does not see the page, or not well: axe's rules over
# every page, all folds open, in print's light colours as on a screen.
axe=${BOTHWAYS_AXE:-$root/build/npm/node_modules/axe-core/axe.min.js}
if [ -f "$axe" ]; then
    cp "$axe" axe.js
    {
        echo '<!DOCTYPE html><title>frames</title><body><pre></pre><script>'
        cat <<'END'
var said = 'asked:\n', asked = 0;
onmessage = function (told) {
    said += told.data;
    if (++asked == document.querySelectorAll('iframe').length)
        document.querySelector('pre').textContent = said + 'all asked';
};
END
        echo '</script>'
        for page in $pages; do
            sed 's|</body>||; s|</html>||' "$page.html" >"axed-$page.html"
            echo "<script src='axe.js'></script><script>var page = '$page';" \
                >>"axed-$page.html"
            cat >>"axed-$page.html" <<'END'
onload = function () {
    document.querySelectorAll('details').forEach(function (d) {
        d.open = true;
    });
    axe.run(document, {resultTypes: ['violations']}).then(function (r) {
        var said = page + ' for axe: ' + r.violations.length + ' findings of ' +
            r.passes.length + ' rules that pass\n';
        r.violations.forEach(function (v) {
            said += page + ': axe finds ' + v.id + ': ' + v.help + ', ' +
                v.nodes.length + ' times, first ' + v.nodes[0].html + '\n';
        });
        parent.postMessage(said, '*');
    });
};</script>
END
            echo "<iframe src='axed-$page.html'" \
                "style='width:1280px;height:900px;border:0'></iframe>"
        done
    } >axed.html
    run_browser --allow-file-access-from-files --hide-scrollbars \
        --virtual-time-budget=300000 --dump-dom "file://$work/axed.html" \
        >axe.txt 2>log.txt || fail 'the browser with axe'
    for page in $pages; do
        grep -q "^$page for axe: 0 findings of [1-9]" axe.txt ||
            { fail "$page.html for axe" && grep "^$page.*axe" axe.txt; }
    done
    echo "asked for access: $pages"
else
    echo 'skipped: axe-core is not installed'
fi

# No pattern is drawn over and over: a page stays small on paper, too.
for page in tight hours fibre; do
    run_browser --no-pdf-header-footer --print-to-pdf="$page.pdf" \
        "file://$work/$page.html" >log.txt 2>&1 || fail "$page.html in print"
    [ -s "$page.pdf" ] || { fail "$page.html prints nothing" && continue; }
    size=$(wc -c <"$page.pdf")
    [ "$size" -lt 2000000 ] || fail "$page.html takes $size bytes of PDF"
    command -v pdftotext >/dev/null || continue
    # the cover, down to its cautions, is one sheet; each has its foot
    pdftotext -l 1 "$page.pdf" - | tr '\n' ' ' >sheet.txt
    grep -q 'cautions stand at the end' sheet.txt ||
        fail "$page.html: the cover is more than one sheet"
    grep -q '1 of [0-9]' sheet.txt || fail "$page.html: a sheet without foot"
done
if [ -n "${BOTHWAYS_SCREENSHOTS:-}" ]; then
    for page in $pages; do
        run_browser --hide-scrollbars --window-size=1280,3000 \
            --screenshot="$BOTHWAYS_SCREENSHOTS/$page.png" \
            "file://$work/$page.html" >log.txt 2>&1
    done
fi
[ "$failed" -eq 0 ] || exit 1
echo "browsed: $pages"
