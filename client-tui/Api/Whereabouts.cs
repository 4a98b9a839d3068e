namespace FuelHistory.Client.Api;

/// <summary>Sends calls off once it is known where the server listens.</summary>
internal sealed class Whereabouts(Task<Uri> address) : DelegatingHandler
{
    /// <summary>Stands in calls until then.</summary>
    public static readonly Uri Unknown = new("http://unknown.invalid");

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var known = await address.WaitAsync(cancellationToken).ConfigureAwait(false);
        request.RequestUri = new Uri(known, request.RequestUri!.PathAndQuery);
        return await base.SendAsync(request, cancellationToken).ConfigureAwait(false);
    }
}
