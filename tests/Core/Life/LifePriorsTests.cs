using FuelHistory.Core.Assessment;
using FuelHistory.Core.Life;
using FuelHistory.Tests.Core.Assessment;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Life;

/// <summary>Priors are kept by the record that they come from: a finding more keeps them, anything else said of the past does not.</summary>
public class LifePriorsTests
{
    private static readonly RealCase Start = new RealCase().Work("pump", new DateOnly(2010, 3, 1), Known.Told).Present("hard-start-hot");
    private static readonly DateOnly Past = new(2012, 5, 1);

    private static readonly Dictionary<string, Func<RealCase, RealCase>> Change = new()
    {
        { "work", c => c.Work("pump", Past, Known.Invoice) },
        { "how work is known", c => c with { Car = c.Car with { Work = [c.Car.Work[0] with { Known = Known.Invoice }] } } },
        { "odometer", c => c with { Car = c.Car with { Odometer = [.. c.Car.Odometer, new OdometerFix(Past, 90_000)] } } },
        { "lay-up", c => c with { Car = c.Car with { LayUps = [new LayUpSpan("l", Past, Past.AddYears(4))] } } },
        { "incident", c => c with { Car = c.Car with { Incidents = [new IncidentFact("i", Past, "ran-dry")] } } },
        { "complete", c => c with { Car = c.Car with { Complete = true } } },
        { "first use", c => c with { Car = c.Car with { FirstUse = c.Car.FirstUse.AddYears(2) } } },
        { "began", c => c with { Complaint = c.Complaint with { Since = c.Complaint.Since.AddYears(-1) } } },
        { "always", c => c with { Complaint = c.Complaint with { Always = true } } },
        { "carried", c => c with { Car = c.Car with { Carried = [new CarriedBelief("e", Past, "pump", [.. ModelFile.Model.Components.Single(p => p.Id == "pump").Modes.Select((_, i) => 1.0 / (i + 2)).Prepend(1)])] } } },
    };

    public static TheoryData<string> Changes => [.. Change.Keys];

    [Fact]
    public void Of_one_finding_more_is_the_same()
    {
        var lives = new LifePriors(ModelFile.Model);
        Assert.Same(lives.Of(Looked(Start)), lives.Of(Looked(Start.Read("system-pressure", 4.9).Fitted("accumulator").Absent("no-power"))));
    }

    [Theory]
    [MemberData(nameof(Changes))]
    public void Of_another_past_is_computed_anew(string what)
    {
        var lives = new LifePriors(ModelFile.Model);
        double before = lives.Of(Looked(Start)).Of(Cars.Part("pump"))[0];
        Investigation changed = Looked(Change[what](Start));
        double[] now = lives.Of(changed).Of(Cars.Part("pump"));
        Assert.True(before != now[0], what);
        Drove? drove = changed.Drove() is DateOnly day ? new Drove(day, new DrivesWith(ModelFile.Model).Of) : null;
        Assert.Equal(new LifePrior(ModelFile.Model, changed.Past(), changed.FirstDay, changed.RanWell(), drove).Of(Cars.Part("pump")), now);
    }

    private static Investigation Looked(RealCase car) => Investigation.From(car.Model.Index, car.Input());
}
