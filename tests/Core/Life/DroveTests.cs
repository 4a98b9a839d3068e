using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;
using FuelHistory.Tests.Core.Assessment;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Life;

/// <summary>"Since I have it": no day is known on which the car ran well, but it drove.</summary>
public sealed class DroveTests
{
    public static TheoryData<string> Models => RealModels.All;

    private static RealCase Always(RealCase car) => car with { Complaint = car.Complaint with { Always = true } };

    /// <summary>What would have stopped the car by itself is believed no more than the background allows; before, the age alone was asked.</summary>
    [Theory]
    [InlineData("pump", "dead")]
    [InlineData("pump-relay", "dead")]
    [InlineData("pump-trigger", "lost")]
    [InlineData("ignition-coil", "dead")]
    public void Always_a_car_that_drove_is_not_suspected_of_what_would_have_stopped_it(string part, string mode)
    {
        Investigation rough = Of(Always(new RealCase().Present("rough-idle-warm")));
        int m = 1 + Cars.Part(part).Modes.ToList().FindIndex(x => x.Id == mode);
        double drove = RealCase.Compiled.Lives.Of(rough).Of(Cars.Part(part))[m], unknown = new LifePrior(ModelFile.Model, rough.Past(), rough.FirstDay, null).Of(Cars.Part(part))[m];

        Assert.True(drove < 0.3 * unknown, $"{drove} {unknown}");
    }

    /// <summary>By age alone 38 of the 46 parts were bad, and every cure near 0.</summary>
    [Theory]
    [InlineData("rough-idle-warm")]
    [InlineData("hard-start-hot")]
    [InlineData("no-start")]
    public void Always_leaves_the_car_as_good_as_one_that_was_driven(string symptom)
    {
        RealCase car = Always(new RealCase().Present(symptom));
        LifePrior life = RealCase.Compiled.Lives.Of(Of(car));
        Answered answer = car.Answer();

        Assert.InRange(Cars.Counted.Sum(c => 1 - life.Of(c)[0]), 1, 5);
        Assert.InRange(answer.MoreThanOne, 0, 0.3);
        Assert.True(answer.Ranking[0].Explains > 0.05, $"{answer.Ranking[0].Component} {answer.Ranking[0].Explains}");
    }

    [Fact]
    public void Always_where_the_complaint_is_that_it_does_not_start_counts_up_to_its_beginning()
    {
        Investigation stopped = Of(Always(new RealCase().Present("no-start"))), rough = Of(Always(new RealCase().Present("rough-idle-warm")));

        Assert.Equal(stopped.Input.Complaint.Since.AddDays(-1), stopped.Drove());
        Assert.Equal(rough.FirstDay, rough.Drove());
        Assert.Equal(rough.Input.Complaint.Since.AddYears(-1), rough.RanWell());
        Assert.Null(Of(new RealCase().Present("no-start")).Drove());
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Events_that_immobilise_are_marked_in_every_system_and_some_modes_are_ruled_out_by_driving(string model)
    {
        FaultModel source = RealModels.Model(model);
        var drives = new DrivesWith(source);

        Assert.Contains(source.Cells, s => s.Immobilises);
        Assert.Contains(source.Components, c => drives.Of(c).Any(p => p < 0.2));
        Assert.Contains(source.Components, c => drives.Of(c).All(p => p == 1));
        Assert.All(source.Components, c => Assert.All(drives.Of(c), p => Assert.InRange(p, 0, 1)));
    }

    private static Investigation Of(RealCase car) => Investigation.From(car.Model.Index, car.Input());
}
