using FuelHistory.Client;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

/// <summary>The leak-down screen by keys, on a clock of the test's own.</summary>
[Collection(OneScreenAtATime.Name)]
public sealed class LeakDownScreenTests
{
    private const string Run = "lkd-1", Check = "watch-whole";

    private static readonly CheckView Watched = new(Check, "Leak-down, whole", "leak-down", "pressure", "bar", [], 15, "gauge-on", 10, ["pressure-gauge"], "high",
        ["Fuel under pressure: no sparks.", "Let it down into a bottle made for petrol."], ["Watch."], "at least 2 bar after 10 min", "from memory", null);

    private readonly Clock _clock = new();

    private static LeakOutlook Outlook(double holds) => new(4, 3, "bar", 10, 2, "typical", 24, holds, "stop-fails", "98 % sure that it will be below 2 bar at 10 min: you may stop.", 0.02, "",
        new ForecastAt(10, 0.5, 1, 1.6, 2.6), [new(0, 3.1, 3.1, 3.1, 3.1), new(5, 1.4, 1.7, 2, 2.9), new(10, 0.5, 1, 1.6, 2.6), new(15, 0.2, 0.6, 1.2, 2.4)],
        [new("steady-seep", "a steady seep", 0.8)], new TauInterval(8, 6, 11), [0, 0.2, 0.8, 0], 0.1, 0.01);

    private LeakDown Entry(string state) => new(Samples.Head(Run), Samples.VehicleId, Samples.ComplaintId, Check, "Leak-down, whole", _clock.Now, "bar", null, null, null, null, "unknown", null, state, null, 0, null, []);

    private StubServer Server() => Samples.Server()
        .Get($"/v1/fault-models/{Samples.ModelId}", Samples.Model with { Checks = [Watched] })
        .Get($"/v1/complaints/{Samples.ComplaintId}/leak-downs", Array.Empty<LeakDown>())
        .Post($"/v1/complaints/{Samples.ComplaintId}/leak-downs", Entry("running"));

    [Fact]
    public void Looks_are_stamped_by_the_key_and_shown_with_verdict_and_curve()
    {
        using var server = Server().Post($"/v1/leak-downs/{Run}/readings", new LeakDownView(Entry("running"), [], Outlook(0.02)));
        using ScreenHost host = Open(server);
        host.Press(Key.Space);
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the start");
        _clock.Now += TimeSpan.FromMinutes(2);
        host.Press(Key.Space);
        Assert.Contains("At 2.00 min it read:", host.Text, StringComparison.Ordinal);

        // the figure is typed a while later; the time is that of the key
        _clock.Now += TimeSpan.FromSeconds(20);
        host.Type("2.2");
        host.Press(Key.Enter);
        host.WaitFor("you may stop");
        Assert.Contains("a steady seep (80 %)", host.Text, StringComparison.Ordinal);
        Assert.Contains("limit 2 at 10 min", host.Text, StringComparison.Ordinal);
        Assert.Contains("2:20 since the stop; 1 looks, bar", host.Text, StringComparison.Ordinal);
        Assert.Contains("CAUTION: Let it down into a bottle", host.Text, StringComparison.Ordinal);
        var look = server.Sent("POST", $"/v1/leak-downs/{Run}/readings")[0]["readings"]![0]!;
        Assert.Equal((2, 2.2), ((double)look["minutes"]!, (double)look["pressure"]!["value"]!));
    }

    [Fact]
    public void Looks_survive_a_lost_connection_and_are_sent_again_with_the_same_id()
    {
        using var server = Server().Answer("POST", $"/v1/leak-downs/{Run}/readings", 503, "");
        using ScreenHost host = Open(server);
        host.Press(Key.Space);
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the start");
        foreach (var figure in (string[])["3.1", "2.6"])
        {
            _clock.Now += TimeSpan.FromMinutes(1);
            host.Press(Key.Space);
            host.Type(figure);
            host.Press(Key.Enter);
        }
        host.WaitFor("2 WAIT");
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the refusal");
        server.Post($"/v1/leak-downs/{Run}/readings", new LeakDownView(Entry("running"), [], Outlook(0.5)));
        host.FireTimers();
        host.WaitFor("you may stop");
        var sent = server.Sent("POST", $"/v1/leak-downs/{Run}/readings");
        Assert.True(sent.Count > 1);
        Assert.Equal((string)sent[0]["readings"]![0]!["id"]!, (string)sent[^1]["readings"]![0]!["id"]!);
        Assert.Equal(2, sent[^1]["readings"]!.AsArray().Count);
    }

    [Fact]
    public void A_figure_that_is_none_is_refused_and_a_look_can_be_taken_back()
    {
        using var server = Server().Answer("POST", $"/v1/leak-downs/{Run}/readings", 503, "");
        using ScreenHost host = Open(server);
        host.Press(Key.Space);
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the start");
        host.Press(Key.Space);
        host.Type("two");
        host.Press(Key.Enter);
        Assert.Contains("\"two\" is no figure", host.Text, StringComparison.Ordinal);
        host.Press(Key.Esc, Key.Space);
        host.Type("2,4");
        host.Press(Key.Enter);
        host.WaitFor("1 looks");
        host.Press(Key.Backspace);
        Assert.Contains("0 looks", host.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Plot_fits_its_place_and_shows_looks_and_limit_in_every_stroke(int stroke)
    {
        var signs = stroke == 2 ? Signs.Plain : Signs.Unicode;
        var lines = LeakPlot.Of([(0.5, 3.1), (2, 2.2), (4, 1.9)], Outlook(0.02), 78, 13, (Stroke)stroke, signs);
        Assert.Equal(13, lines.Count);
        Assert.All(lines, line => Assert.True(Cells.Width(line.Text) <= 78, line.Text));
        Assert.Equal(3, lines.Sum(line => line.Text.Count(sign => sign == 'o')));
        Assert.Contains(lines, line => line.Text.Contains("limit 2 at 10 min", StringComparison.Ordinal));
        Assert.Equal("0", lines[^1].Text.Trim().Split(' ')[0]);
        if (stroke == 2) Assert.All(lines, line => Assert.All(line.Text, sign => Assert.True(sign < 128)));
    }

    [Fact]
    public void Large_figures_are_five_rows_and_differ_for_every_digit()
    {
        string[] all = [.. Enumerable.Range(0, 10).Select(digit => string.Join('\n', LeakLines.Large($"{digit}", Signs.Plain)))];
        Assert.Equal(10, all.Distinct().Count());
        Assert.All(all, text => Assert.Equal(5, text.Split('\n').Length));
    }

    private ScreenHost Open(StubServer server)
    {
        ScreenHost host = new(server.Address, clock: _clock);
        host.WaitFor("Blue hatch");
        host.Press(Key.Enter);
        host.WaitFor("Fuel pump fitted");
        host.Type("d");
        host.WaitFor("Pressure regulator seal");
        host.Type("k");
        host.WaitFor("Leak-down, whole");
        host.Press(Key.Enter);
        host.WaitFor("CAUTION");
        host.Press(Key.F4);
        host.WaitFor("Run the pump");
        return host;
    }

    private sealed class Clock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = new(2026, 6, 1, 10, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
