using System.Net;
using FuelHistory.Core.Assessment;
using FuelHistory.Host.Http;
using FuelHistory.Tests.Core.Assessment;

namespace FuelHistory.Tests.Host;

/// <summary>As many computations at once as there are processors; who asks whether the host lives never waits for them, and who has gone is forgotten.</summary>
public sealed class ComputingGateTests : IDisposable
{
    private readonly ApiHost host = new();

    [Fact]
    public async Task Assessment_waits_while_all_turns_are_taken_and_the_host_says_that_it_lives()
    {
        string path = $"/v1/complaints/{await host.Complaint(await host.Vehicle())}/assessment";
        List<IDisposable> turns = AllTurns();

        Task<Answer> asked = host.Get(path);
        Assert.Equal(HttpStatusCode.OK, (await host.Get("/livez")).Status);
        Assert.False(asked.IsCompleted);

        turns.ForEach(t => t.Dispose());
        Assert.Equal(HttpStatusCode.OK, (await asked).Status);
    }

    [Fact]
    public async Task Assessment_given_up_while_it_waits_takes_no_turn()
    {
        string path = $"/v1/complaints/{await host.Complaint(await host.Vehicle())}/assessment";
        List<IDisposable> turns = AllTurns();
        using (CancellationTokenSource gone = new())
        {
            Task<HttpResponseMessage> asked = host.Client.GetAsync(new Uri(path, UriKind.Relative), gone.Token);
            await gone.CancelAsync();
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => asked);
        }

        turns.ForEach(t => t.Dispose());
        Assert.Equal(HttpStatusCode.OK, (await host.Get(path)).Status);
        AllTurns().ForEach(t => t.Dispose());
    }

    [Fact]
    public void Enter_more_questions_than_processors_lets_as_many_run_as_there_are()
    {
        List<IDisposable> turns = AllTurns();
        Assert.Equal(Math.Min(Environment.ProcessorCount, 16), turns.Count);
        turns.ForEach(t => t.Dispose());
    }

    [Fact]
    public void Run_asked_by_somebody_who_has_gone_stops()
    {
        RealCase car = new RealCase().Present("hard-start-hot");
        Assert.ThrowsAny<OperationCanceledException>(() => Assess.Run(car.Model, car.Input(), new CancellationToken(true)));
        Assert.ThrowsAny<OperationCanceledException>(() => Assess.Advise(car.Model, car.Input(), new CancellationToken(true)));
    }

    /// <summary>Questions of their own until none gets a turn at once any more.</summary>
    private List<IDisposable> AllTurns()
    {
        List<IDisposable> turns = [];
        for (int question = 0; question < 200; question++)
        {
            using CancellationTokenSource wait = new();
            Task<IDisposable> turn = host.Gate.Enter($"question {question}", wait.Token);
            if (turn.IsCompletedSuccessfully)
            {
                turns.Add(turn.Result);
            }

            wait.Cancel();
        }

        return turns;
    }

    public void Dispose() => host.Dispose();
}
