using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;
using Xunit;

namespace FuelHistory.Tests.Client;

public sealed class StopLinesTests
{
    private static readonly StopNote Oil = new("petrol-in-oil", "Petrol in the oil", "Do not crank it and do not run it: the vapour can explode. " + new string('x', 40) + " Find where it comes from.", "Oil thin: present", "the oil is changed", ["cranking"]);

    private static readonly Complaint Open = new(new EntryHead("c", 1, default, null), "v", "Restarts badly", "2026-05", "constant", false, default, null, null);

    private static Assessment With(params StopNote[] notes) =>
        Samples.Assessment with { StopNotes = notes };

    [Theory]
    [InlineData(60)]
    [InlineData(80)]
    [InlineData(120)]
    public void Likely_begins_with_what_must_not_be_done_and_fits_the_width(int width)
    {
        var lines = LikelyLines.Of(With(Oil, Oil with { Title = "Petrol leaks" }), Samples.Advice, Open, 0, width, 24, Signs.Unicode);

        Assert.StartsWith("  STOP: Petrol in the oil. Do not crank it", lines[0].Text, StringComparison.Ordinal);
        Assert.Equal(2, lines.Count(line => line.Text.Contains("STOP:", StringComparison.Ordinal)));
        Assert.All(lines.TakeWhile(line => !line.Text.Contains("Component", StringComparison.Ordinal)), line => Assert.True(Cells.Width(line.Text) <= width, line.Text));
        Assert.Contains(lines, line => line.Text.Contains("Fuel pump", StringComparison.Ordinal));
    }

    [Fact]
    public void Contradiction_says_it_first_all_the_same() =>
        Assert.StartsWith("  STOP:", LikelyLines.Of(With(Oil) with { Outcome = "contradiction", Ranking = [] }, null, Open, 0, 80, 24, Signs.Unicode)[0].Text, StringComparison.Ordinal);

    [Fact]
    public void Plain_command_says_all_of_it_before_anything_else()
    {
        var first = PlainLines.Likely(With(Oil), Samples.Advice, Open, 80, Signs.Unicode)[0].Text;

        Assert.StartsWith("STOP: Petrol in the oil.", first, StringComparison.Ordinal);
        Assert.EndsWith("Until the oil is changed. (Because of: Oil thin: present)", first, StringComparison.Ordinal);
    }

    [Fact]
    public void No_note_no_line() => Assert.DoesNotContain(LikelyLines.Of(With(), Samples.Advice, Open, 0, 80, 24, Signs.Unicode), line => line.Text.Contains("STOP", StringComparison.Ordinal));

    [Theory]
    [InlineData("pump-kind=in-tank, lambda-control = none", "in-tank none", 0)]
    [InlineData("pump-kind", "", 1)]
    [InlineData("pump-kind=a, pump-kind=b", "a", 1)]
    public void Options_are_read_as_name_and_choice(string written, string choices, int faults)
    {
        Draft draft = new(TimeProvider.System);

        var named = draft.Named(new TypedField("options", "What is fitted", "", written));
        Assert.Equal(choices, string.Join(' ', named!.Values));
        Assert.Equal(faults, draft.Faults.Count);
    }
}
