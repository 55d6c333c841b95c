namespace Panel.Bench;

/// <summary>From asking for the page to its first picture of the machine as it is, in a browser that was never here before.</summary>
internal static class FirstView
{
    private const int Times = 11;

    // The first live event is drawn: its number stands at the band, and the frame after that has passed.
    private const string Watch = """
        window.firstView = new Promise(resolve => new MutationObserver((_, watch) => {
            if (document.getElementById('band')?.dataset.seq === undefined) return;
            watch.disconnect();
            requestAnimationFrame(() => setTimeout(() => resolve(performance.now())));
        }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-seq'] }));
        """;

    public static async Task<IReadOnlyList<Figure>> MeasureAsync(Browser browser)
    {
        await using var served = await Served.StartAsync();
        var all = new List<double>();
        for (var time = 0; time <= Times; time++)
        {
            var page = await browser.NewPageAsync(Watch);
            await page.GotoAsync(served.Address);
            var took = await page.EvaluateAsync<double>("() => window.firstView");
            if (time > 0)
                all.Add(took);
            await page.Context.DisposeAsync();
        }

        return [new Figure("first-view, median", Figure.Quantile(all, 0.5), "ms", 1000, all.Min(), all.Max())];
    }
}
