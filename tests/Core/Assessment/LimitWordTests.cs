using FuelHistory.Core.Assessment;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Below, within, above the limits, without a figure.</summary>
public sealed class LimitWordTests
{
    private static readonly RealCase Start = new RealCase().Present("no-power");

    private static double Odds(RealCase c, string part) => c.Bad()[part] / (1 - c.Bad()[part]);

    [Theory]
    [InlineData("system-pressure", "below", 3.9)]
    [InlineData("system-pressure", "within", 5.0)]
    [InlineData("system-pressure", "above", 6.2)]
    [InlineData("dead-head", "below", 3.8)]
    public void Word_leads_the_same_way_as_a_reading_there(string check, string word, double reading)
    {
        foreach (string part in new[] { "pressure-regulator", "pump" })
        {
            double none = Odds(Start, part), said = Math.Log(Odds(Start.Saw(check, word), part) / none), read = Math.Log(Odds(Start.Read(check, reading), part) / none);

            Assert.True(Math.Abs(said) < 0.1 || Math.Sign(said) == Math.Sign(read), $"{check} {word} {part}: {said} {read}");
        }
    }

    [Fact]
    public void Words_add_up_to_one_at_every_level()
    {
        var evidence = Assert.IsType<LimitWordEvidence>(Start.Saw("control-warm", "below").Situation().Evidence.Single(e => e is LimitWordEvidence));

        Assert.All(evidence.Words, row => Assert.Equal(1, row.Sum(), 1e-12));
        Assert.True(evidence.Words[0][0] > 0.9);
    }

    [Fact]
    public void Above_where_nothing_limits_it_upwards_is_within() =>
        Assert.Equal(Start.Saw("dead-head", "within").Bad(), Start.Saw("dead-head", "above").Bad());

    [Fact]
    public void Word_beside_a_reading_of_the_stretch_does_not_count() =>
        Assert.Equal(Start.Read("dead-head", 5.5).Bad(), Start.Read("dead-head", 5.5).Saw("dead-head", "below").Bad());

    [Fact]
    public void Word_needs_no_covariate_and_the_answer_stands()
    {
        Answered answer = Start.Saw("control-cold", "above").Answer();

        Assert.DoesNotContain(answer.Asks, a => a.Contains("depends on", StringComparison.Ordinal));
        Assert.NotEmpty(answer.Ranking);
    }
}
