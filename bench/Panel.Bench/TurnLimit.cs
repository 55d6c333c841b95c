using Microsoft.Playwright;

namespace Panel.Bench;

/// <summary>
/// How many faces can be turned at 30 frames a second: solids of more and more of them, drawn by the page's own module, each frame to its last pixel.
/// </summary>
internal static class TurnLimit
{
    private const int Goal = 30; // frames in a second
    private const int Frames = 30;

    // Some of sixteen fluted columns on 256 x 256 x 64 cells, or 64 x 64 x 64 where there is no WebGL; what is drawn is as large as on the page.
    private const string TurnThem = """
        async ([kind, columns, frames]) => {
            const { Faces, Volume } = await import('/solid/faces.js');
            const scene = kind === 'webgl' ? (await import('/solid/scene.js')).Scene : (await import('/solid/plain-scene.js')).PlainScene;
            const wide = kind === 'webgl' ? 64 : 16;
            const volume = new Volume(4 * wide, 4 * wide, 64);
            for (let at = 0, z = 0; z < 64; z++) for (let y = 0; y < 4 * wide; y++) for (let x = 0; x < 4 * wide; x++, at++) {
                const [across, along] = [x % wide - wide / 2, y % wide - wide / 2];
                const flute = Math.sin(Math.atan2(along, across) * 9 + z / 9) + Math.sin(z / 2);
                if (Math.floor(y / wide) * 4 + Math.floor(x / wide) < columns && Math.hypot(across, along) < wide * 0.375 + flute) volume.cells[at] = 1;
            }
            const faces = new Faces(volume);
            while (faces.addLayer());
            const canvas = Object.assign(document.createElement('canvas'), { width: 760, height: 558 });
            document.body.prepend(canvas);
            const made = kind === 'webgl' ? scene.make(canvas) : new scene(canvas);
            made.take(faces, [1, 1, 1]);
            const ends = [];
            for (let frame = 0; frame <= frames; frame++) {
                made.draw({ yaw: frame / 10, tilt: 0.5, size: 0.95 }, { a: [0.1, 0.3, 0.4], b: [0.5, 0.3, 0.1], bed: [0.5, 0.5, 0.5] });
                if (kind === 'webgl') made.on.readPixels(0, 0, 1, 1, made.on.RGBA, made.on.UNSIGNED_BYTE, new Uint8Array(4));
                else made.on.getImageData(0, 0, 1, 1);
                await new Promise(requestAnimationFrame);
                ends.push(performance.now());
            }
            canvas.remove();
            return [faces.count, ...ends.slice(1).map((end, index) => end - ends[index])];
        }
        """;

    public static async Task<IReadOnlyList<Figure>> MeasureAsync(Browser browser)
    {
        await using var served = await Served.StartAsync();
        var page = await browser.NewPageAsync();
        await page.GotoAsync(served.Address);
        var figures = new List<Figure>();
        foreach (var kind in new[] { "webgl", "plain" })
            foreach (var columns in kind == "webgl" ? new[] { 2, 4, 6, 8, 12, 16 } : [1, 2, 4, 8])
                figures.Add(await OnceAsync(page, kind, columns));
        return figures;
    }

    private static async Task<Figure> OnceAsync(IPage page, string kind, int columns)
    {
        var measured = await page.EvaluateAsync<double[]>(TurnThem, new object[] { kind, columns, Frames });
        var rates = measured.Skip(1).Select(ms => 1000 / ms).ToList();
        return new Figure($"turn, {kind}, {measured[0]:0} faces", Figure.Quantile(rates, 0.5), "1/s", Goal, rates.Min(), rates.Max(), IsLeast: true,
            Note: $"nine of ten below {Figure.Quantile(rates, 0.9):0.0}");
    }
}
